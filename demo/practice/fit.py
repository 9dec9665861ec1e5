"""What the invented clients have at hand, must keep from, and how long they can stay. All made up."""

import datetime as dt
from dataclasses import dataclass

from accounts.models import Client, User
from programs.models import ClientEquipment, ClientLimit, Equipment, Limit


@dataclass(frozen=True)
class Fit:
    """`gear` are slugs of equipment; none means everything."""

    gear: tuple[str, ...] = ()
    limits: tuple[str, ...] = ()
    minutes: int | None = None
    note: str = ""


GARAGE = ("barbell", "dumbbell", "weight-plate", "band", "body-weight")
HOME = ("dumbbell", "band", "suspension", "body-weight")
MACHINES = (
    "machine-stack",
    "machine-plates",
    "cable",
    "ankle-strap-cable",
    "leg-press",
    "dumbbell",
    "assisted-station",
)

FITS: dict[str, Fit] = {
    "Ada": Fit(minutes=75),
    "Benno": Fit(limits=("spine-pressed",), note="As agreed with the physiotherapist."),
    "Cleo": Fit(limits=("elbow-bent-far",), minutes=50),
    "Darius": Fit(gear=GARAGE),
    "Edda": Fit(minutes=60),
    "Farid": Fit(gear=(*MACHINES, "barbell")),
    "Greta": Fit(gear=HOME, limits=("kneeling",), minutes=45),
    "Hanno": Fit(limits=("knee-bent-deep", "on-the-floor"), minutes=60, note="Until the knee was looked at."),
    "Ilka": Fit(gear=GARAGE, minutes=40),
    "Jonas": Fit(limits=("arm-overhead",)),
    "Lorenz": Fit(gear=HOME),
    "Mina": Fit(minutes=50),
    "Nils": Fit(gear=MACHINES),
    "Oona": Fit(limits=("wrist-bent-back",), minutes=70),
    "Pavel": Fit(gear=GARAGE, limits=("flat-on-back",)),
    "Quirin": Fit(gear=(*HOME, "kettlebell")),
    "Rosa": Fit(limits=("bent-over", "spine-pressed"), minutes=55),
    "Ulf": Fit(limits=("arm-behind-trunk",)),
    "Vera": Fit(gear=HOME, minutes=35),
    "Yara": Fit(limits=("head-low",), minutes=60),
}


def write_fit(client: Client, name: str, told_by: User, since: dt.date) -> None:
    """Write what is known of the client with this name (four queries at most)."""
    fit = FITS.get(name.split()[0], Fit())
    if fit.minutes:
        client.minutes_per_session = fit.minutes
        client.save(update_fields=["minutes_per_session"])
    if fit.gear:
        rows = Equipment.objects.filter(practice=None, slug__in=fit.gear)
        ClientEquipment.objects.bulk_create(
            ClientEquipment(client=client, equipment=row, told_by=told_by) for row in rows
        )
    if fit.limits:
        known = Limit.objects.filter(slug__in=fit.limits)
        ClientLimit.objects.bulk_create(
            ClientLimit(client=client, limit=row, since=since, note=fit.note, told_by=told_by) for row in known
        )
