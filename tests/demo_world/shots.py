"""The list of demo photographs: which claim, which file, when it was taken and how the phone stored it."""

from __future__ import annotations

from dataclasses import dataclass

SHORT_BLOCK = "26-0041-short-block"
LATE = "26-0052-one-day-late"
NO_DATE = "26-0057-missing-date"
COIL = "26-0063-statutory-coil"
HOURS = "26-0068-hour-limit"
SEAL = "26-0071-replaced-seal"
THREE = "26-0074-three-parts"
ENGINE = "26-0080-mower-engine"
YEN = "26-0083-accents-yen"
BATTERY = "26-0090-battery"


@dataclass(frozen=True)
class Shot:
    """One photograph: where it goes and the facts the camera writes beside the pixels."""

    claim: str
    file: str
    taken: str
    orientation: int = 1
    gps: tuple[float, float] | None = None
    profile: str = "srgb"
    offset: str = "-05:00"
    maker_note: bytes = b""
    size: tuple[int, int] = (2016, 1512)
    quality: int = 80
    grain: float = 3.0

    @property
    def key(self) -> str:
        """A name for the raw render: claim number and file stem."""
        return f"{self.claim[:7]}-{self.file.rsplit('.', 1)[0]}"


NOTE = b"AOPT\x00\x01\x00\x10scene=workshop\x00iso=160\x00"
SHOTS: tuple[Shot, ...] = (
    Shot(SHORT_BLOCK, "plate.jpg", "2026-02-05 09:12:08"),
    Shot(SHORT_BLOCK, "engine-plate.jpg", "2026-02-05 09:13:41", orientation=6),
    Shot(SHORT_BLOCK, "whole.jpg", "2026-02-05 09:10:22", gps=(51.0, -1.0)),
    Shot(SHORT_BLOCK, "failed-part.jpg", "2026-02-09 10:31:17"),
    Shot(SHORT_BLOCK, "damage.jpg", "2026-02-09 10:36:55", size=(8064, 6048), quality=70, maker_note=NOTE, grain=1.6),
    Shot(SHORT_BLOCK, "compression.jpg", "2026-02-09 09:48:03"),
    Shot(SHORT_BLOCK, "old-and-new.jpg", "2026-02-09 11:20:44", gps=(51.0, -1.0)),
    Shot(LATE, "plate.jpg", "2026-03-02 08:41:10", orientation=3),
    Shot(LATE, "whole.jpg", "2026-03-02 08:43:29"),
    Shot(LATE, "failed-part.jpg", "2026-03-02 14:05:51"),
    Shot(NO_DATE, "plate.jpg", "2026-03-10 10:02:37"),
    Shot(NO_DATE, "whole.jpg", "2026-03-10 10:00:12", gps=(48.5, -20.25)),
    Shot(NO_DATE, "failed-part.jpg", "2026-03-10 13:27:40"),
    Shot(COIL, "plate.jpg", "2026-03-16 11:15:02"),
    Shot(COIL, "whole.jpg", "2026-03-16 11:13:48"),
    Shot(COIL, "failed-part.jpg", "2026-03-16 12:02:33", orientation=8),
    Shot(COIL, "spark-test.jpg", "2026-03-16 11:49:20", profile="p3"),
    Shot(HOURS, "plate.jpg", "2026-04-14 08:20:15"),
    Shot(HOURS, "whole.jpg", "2026-04-14 08:17:59", gps=(51.0, -1.0)),
    Shot(HOURS, "hour-meter.jpg", "2026-04-14 08:22:30"),
    Shot(HOURS, "failed-part.jpg", "2026-04-14 15:40:06"),
    Shot(SEAL, "plate.jpg", "2026-04-21 09:05:44"),
    Shot(SEAL, "whole.jpg", "2026-04-21 09:03:11"),
    Shot(SEAL, "failed-part.jpg", "2026-04-21 11:31:27"),
    Shot(SEAL, "leak.jpg", "2026-04-21 09:08:52", gps=(48.5, -20.25)),
    Shot(THREE, "plate.jpg", "2026-05-06 13:10:09"),
    Shot(THREE, "whole.jpg", "2026-05-06 13:08:46"),
    Shot(THREE, "failed-part.jpg", "2026-05-06 15:22:13"),
    Shot(THREE, "crack.jpg", "2026-05-06 15:24:50", orientation=6),
    Shot(THREE, "old-and-new.jpg", "2026-05-06 16:01:35", maker_note=NOTE),
    Shot(ENGINE, "plate.jpg", "2026-05-12 09:30:18"),
    Shot(ENGINE, "engine-plate.jpg", "2026-05-12 09:33:02"),
    Shot(ENGINE, "whole.jpg", "2026-05-12 09:28:40", gps=(51.0, -1.0)),
    Shot(ENGINE, "hour-meter.jpg", "2026-05-12 09:31:25", orientation=3),
    Shot(ENGINE, "failed-part.jpg", "2026-05-14 10:44:12"),
    Shot(ENGINE, "damage.jpg", "2026-05-14 10:52:37"),
    Shot(ENGINE, "leak-down.jpg", "2026-05-14 08:35:58"),
    Shot(ENGINE, "blade.jpg", "2026-05-14 11:30:21"),
    Shot(YEN, "plate.jpg", "2026-06-03 10:11:07"),
    Shot(YEN, "whole.jpg", "2026-06-03 10:09:33"),
    Shot(YEN, "failed-part.jpg", "2026-06-03 14:18:26", offset="", orientation=8),
    Shot(BATTERY, "plate.jpg", "2026-06-17 08:55:13"),
    Shot(BATTERY, "whole.jpg", "2026-06-17 08:53:47"),
    Shot(BATTERY, "failed-part.heic", "2026-06-17 09:26:05", size=(4032, 3024), quality=48, gps=(51.0, -1.0)),
    Shot(BATTERY, "voltage.jpg", "2026-06-17 09:15:31", offset=""),
)


@dataclass(frozen=True)
class Plate:
    """What a serial plate says."""

    maker: str
    kind: str
    model: str
    serial: str
    made: str
    rows: tuple[tuple[str, str], ...] = ()


HALDEN, ORRIN, TESSALY = "HALDEN", "ORRIN & VALE", "TESSALY PUMPS"
SAW_ROWS = (("DISPLACEMENT", "70.6 cm3"), ("MAX DISC", "350 mm"))
MOWER_ROWS = (("CUT", "1070 mm"), ("MASS", "214 kg"))
PLATES: dict[str, Plate] = {
    SHORT_BLOCK: Plate(HALDEN, "Cut-off saw", "CS-70", "HC70-118-20417", "2024", SAW_ROWS),
    LATE: Plate(
        HALDEN, "Hedge trimmer", "HT-26", "HT26-204-00871", "2023", (("DISPLACEMENT", "25.4 cm3"), ("BLADE", "600 mm"))
    ),
    NO_DATE: Plate(
        ORRIN,
        "Generating set",
        "G-3200",
        "OV-G32-0098114",
        "2024",
        (("OUTPUT", "120 V  60 Hz  3.2 kVA"), ("ENGINE", "OVE-2207714")),
    ),
    COIL: Plate(HALDEN, "Cut-off saw", "CS-70", "HC70-097-11802", "2023", SAW_ROWS),
    HOURS: Plate(ORRIN, "Ride-on mower", "RM-42", "OV-RM42-0041277", "2023", MOWER_ROWS),
    SEAL: Plate(TESSALY, "Trash pump", "TP-80", "TP80-5-03317", "2024", (("PORTS", "80 mm / 3 in"), ("HEAD", "27 m"))),
    THREE: Plate(
        TESSALY, "Pressure washer", "PW-240", "PW240-2-01190", "2024", (("PRESSURE", "240 bar"), ("FLOW", "13 l/min"))
    ),
    ENGINE: Plate(ORRIN, "Ride-on mower", "RM-42", "OV-RM42-0052630", "2024", MOWER_ROWS),
    YEN: Plate(TESSALY, "Water pump", "TP-50", "TP50-7-00412", "2024", (("PORTS", "50 mm / 2 in"), ("HEAD", "30 m"))),
    BATTERY: Plate(
        HALDEN, "Battery hedge trimmer", "HB-40", "HB40-311-02218", "2024", (("SUPPLY", "40 V DC"), ("BLADE", "550 mm"))
    ),
}
