"""The muscles, and what trains them."""

from django.urls import reverse

from programs.services.library_anatomy import anatomy_lines

BACKEND = "allauth.account.auth_backends.AuthenticationBackend"


def test_every_head_is_there_with_its_counts(library):
    lines = anatomy_lines(None)
    heads = {part.head.slug: part for line in lines for part in line.heads}
    assert set(heads) == {head["slug"] for muscle in library.data.muscles for head in muscle["heads"]}
    for slug in ("semitendinosus", "triceps-brachii-long", "sartorius"):
        credits = [e["credits"][slug] for e in library.data.exercises if slug in e["credits"]]
        assert (heads[slug].direct, heads[slug].all) == (credits.count(1), len(credits))


def test_the_counts_are_what_the_linked_list_shows(client, world, library):
    client.force_login(world.coach, backend=BACKEND)
    part = next(part for line in anatomy_lines(world.practice) for part in line.heads if part.head.slug == "soleus")
    for query, count in (({}, part.all), ({"counted": "direct"}, part.direct)):
        response = client.get(reverse("exercise-list"), {"muscle": "head:soleus", **query})
        assert response.context["page"].paginator.count == count > 0


def test_the_page_names_codes_lay_names_and_joints(client, world, library, django_assert_num_queries):
    client.force_login(world.client.user, backend=BACKEND)
    # session, user, membership, own client; counts, muscles, heads, their actions, their groups
    with django_assert_num_queries(9):
        content = client.get(reverse("anatomy")).content.decode()
    for shown in (
        "M. triceps brachii",
        "A04.6.02.019",
        "back of the upper arm",
        "crosses two joints",
        "elbow extension",
    ):
        assert shown in content
