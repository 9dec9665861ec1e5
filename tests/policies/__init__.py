"""What each named route answers to each kind of person; `tests/test_access_walk.py` asks every one of them.

How to state a policy. Make `tests/policies/<room>.py` with a dict `POLICIES` that names every route of the room's
`urls.py` (with its namespace, `api-v1:session-list`), and, if the routes need rows, a function `extend(world)`:

    from tests.policies import Policy, everyone, only, LOGIN, MEMBERS

    def extend(world):
        '''Rows that the sample addresses point at. Runs once, on the `world` of tests/conftest.py.'''
        world.program = Program.objects.create(practice=world.practice, name="Arms")

    POLICIES = {
        # A page of the coaches of one practice: strangers must not learn that it exists.
        "program-editor": Policy(
            kwargs=lambda world: {"program_id": world.program.pk},
            get=only("coach", "colleague", "owner"),
        ),
        # A form: what each role gets for a POST of `data`. Everything is rolled back after each request.
        "program-create": Policy(
            get=only(*MEMBERS),
            post=only(*MEMBERS, status=302),
            data=lambda world: {"name": "Legs"},
        ),
        # JSON for programs: 401 for someone who is not signed in.
        "api-v1:set-list": Policy(get=only("client", anonymous=401, otherwise=403), post=..., as_json=True),
    }

`only(*roles)` gives 200 to those roles, 404 to all others, and sends the anonymous to sign-in; `everyone(status)` gives
all the same; both take exceptions by role (`everyone(200, anonymous=LOGIN)`). A method without a rule must be refused
to everyone (401, 403, 404, 405 or sign-in): never a 2xx, never a 5xx. 302 is a redirect to anywhere but sign-in.

Who the roles are (rows of `world`): `client` is trained by `coach`; `other_client` by `colleague`; both coaches work in
`world.practice`, which `owner` owns; `outsider` coaches (and owns) another practice; `nobody` has an account and
belongs nowhere; `anonymous` is not signed in. Sample addresses should point at rows of `client` and `coach`, so that
`other_client`, `colleague` and `outsider` are the strangers.

Four more coaches of `world.practice` tell days apart, and need no word in most policies. `stand_in` covers for `coach`
today and `taker` was handed the client over: both train the client, so they get what `coach` gets. `former` (their
engagement ended yesterday) and `giver` (handed the client over yesterday) get what `colleague` gets. Where a right is
that of whoever made the row, not of whoever trains the client, say `authors_only=True`; any other difference is an
exception by role in the outcomes.
"""

import importlib
import pkgutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any

LOGIN = "to sign-in"
ROLES = ("anonymous", "nobody", "client", "other_client", "coach", "colleague", "owner", "outsider")
# Coaches whose right hangs on the days of an engagement, and in whose place each stands.
TRAIN_NOW = ("stand_in", "taker")
TRAINED_ONCE = ("former", "giver")
LIKE = dict.fromkeys(TRAIN_NOW, "coach") | dict.fromkeys(TRAINED_ONCE, "colleague")
COACHES_HERE = ("coach", "colleague", "owner")
MEMBERS = (*COACHES_HERE, "outsider")
CLIENTS = ("client", "other_client")

World = SimpleNamespace
Outcome = int | str
Outcomes = Mapping[str, Outcome]


def everyone(status: Outcome, **exceptions: Outcome) -> Outcomes:
    """Give every role the same outcome, but for the roles named."""
    unknown = set(exceptions) - set(ROLES) - set(LIKE)
    assert not unknown, f"no such role: {unknown}"
    return dict.fromkeys(ROLES, status) | exceptions


def only(
    *roles: str, status: Outcome = 200, otherwise: Outcome = 404, anonymous: Outcome = LOGIN, **exceptions: Outcome
) -> Outcomes:
    """Give `status` to the roles named, `otherwise` to the rest, and send the anonymous to sign-in."""
    assert set(roles) <= {*ROLES, *LIKE}, f"no such role: {set(roles) - {*ROLES, *LIKE}}"
    return everyone(otherwise, **{"anonymous": anonymous, **dict.fromkeys(roles, status), **exceptions})


PUBLIC = everyone(200)
SIGNED_IN = everyone(200, anonymous=LOGIN)


@dataclass(frozen=True)
class Policy:
    """What one named route answers: an outcome a role for each method that it has."""

    kwargs: Callable[[World], dict[str, Any]] = lambda world: {}
    get: Outcomes | None = None
    post: Outcomes | None = None
    put: Outcomes | None = None
    patch: Outcomes | None = None
    delete: Outcomes | None = None
    # The body of POST, PUT and PATCH; `query` is the part of the address after the question mark.
    data: Callable[[World], Any] = lambda world: {}
    query: Callable[[World], dict[str, Any]] = lambda world: {}
    as_json: bool = False
    # The right is that of whoever made the row: training the client gives none.
    authors_only: bool = False
    # Called with (world, role) before each request, inside what is rolled back, e.g. to put something in the database.
    before: Callable[[World, str], None] | None = None

    def outcomes(self, method: str) -> Outcomes | None:
        """Return the outcome of every role that is worth asking for.

        A coach of LIKE is left out where `coach` and `colleague` get the same and no page comes back: no engagement
        decides there.
        """
        stated: Outcomes | None = getattr(self, method)
        if stated is None:
            return None
        decides = stated["coach"] != stated["colleague"] or (method == "get" and stated["colleague"] == 200)
        derived = {role: stated["colleague" if self.authors_only else like] for role, like in LIKE.items() if decides}
        return derived | stated


def modules() -> list[Any]:
    """Every module of this package, by name."""
    return [importlib.import_module(f"{__name__}.{found.name}") for found in pkgutil.iter_modules(__path__)]


def collect() -> dict[str, Policy]:
    """Every stated policy; two rooms may not speak for the same route."""
    policies: dict[str, Policy] = {}
    for module in modules():
        twice = policies.keys() & module.POLICIES.keys()
        assert not twice, f"{module.__name__} states a policy that another module states too: {twice}"
        policies |= module.POLICIES
    return policies


def extend(world: World) -> World:
    """Let every room add the rows that its sample addresses point at."""
    for module in modules():
        if hasattr(module, "extend"):
            module.extend(world)
    return world
