"""The technician's commands: pictures, papers, findings, parts, labour."""
