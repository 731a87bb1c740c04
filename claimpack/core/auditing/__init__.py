"""What an auditor would ask about: rules by subject, likeness of pictures, sampling."""
