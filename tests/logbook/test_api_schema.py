"""The description of the API is true."""

import pytest
from django.core.management import call_command
from django.utils import timezone
from drf_spectacular.generators import SchemaGenerator
from jsonschema import Draft202012Validator

from logbook.operations.kinds import KINDS
from tests.logbook.factories import make_planned


@pytest.fixture(scope="module")
def schema():
    return SchemaGenerator().get_schema(request=None, public=True)


def shape(schema, name):
    """One component with the others beside it, and OpenAPI 3.0's `nullable` in JSON Schema's words."""

    def plain(node):
        if isinstance(node, list):
            return [plain(item) for item in node]
        if not isinstance(node, dict):
            return node
        node = {key: plain(value) for key, value in node.items() if key != "nullable"} | (
            {"nullable": True} if node.get("nullable") is True else {}
        )
        return (
            {"anyOf": [{k: v for k, v in node.items() if k != "nullable"}, {"type": "null"}]}
            if node.get("nullable")
            else node
        )

    return {"$ref": f"#/components/schemas/{name}", "components": plain(schema["components"])}


def test_description_is_made_without_a_warning(tmp_path):
    call_command("spectacular", "--validate", "--fail-on-warn", "--file", str(tmp_path / "schema.yml"))


def test_every_kind_of_operation_is_described(schema):
    described = schema["components"]["schemas"]["Operation"]["discriminator"]["mapping"]
    assert set(described) == set(KINDS)


@pytest.mark.parametrize(
    ("path", "component"),
    [
        ("plan/", "PlanShape"),
        ("sessions/", "PaginatedSessionShapeList"),
        ("sessions/{session}/", "SessionDetailShape"),
        ("sets/{set}/", "SetDetailShape"),
        ("check-ins/", "PaginatedCheckInShapeList"),
    ],
)
def test_answers_have_the_shape_described(gym, phone, schema, path, component):
    session = gym.start()
    ids = {"session": session, "set": gym.log(session)}
    gym.apply("set.edit", gym.later(), set=ids["set"], load=45, unit="kg", reps=8, rir=None)
    gym.apply("checkin.record", fatigue=3, sleep=3, soreness=3, stress=3, mood=3)
    make_planned(gym.client, timezone.now().date(), {"exercise": gym.curl}, {"exercise": gym.row})
    body = phone.get("/api/v1/" + path.format(**ids)).json()
    assert [error.message for error in Draft202012Validator(shape(schema, component)).iter_errors(body)] == []


def test_the_check_of_shapes_can_fail(schema):
    assert list(Draft202012Validator(shape(schema, "PlanShape")).iter_errors({"from": "2024-01-01"}))
