from __future__ import annotations

import pytest
from django.core.exceptions import ValidationError

from catalogue.actions.composers import create_composer, save_composer
from catalogue.actions.saving import Overtaken
from catalogue.models import Composer
from catalogue.terms import Role
from tests.makers import NOW, make_composer, make_user

pytestmark = pytest.mark.django_db


def test_new_composer_has_an_owner() -> None:
    user = make_user()

    composer = create_composer(name="Łucja Østergård", owner=user)

    assert composer.slug == "lucja-ostergard"
    assert [(member.user, member.role) for member in composer.memberships.all()] == [(user, Role.OWNER)]


@pytest.mark.parametrize(("name", "slug"), [("Ilse Tarnow", "ilse-tarnow-2"), ("Ильзе Тарнов", "composer")])
def test_slug_is_free_and_has_plain_letters(name: str, slug: str) -> None:
    make_composer("Ilse Tarnow")

    assert create_composer(name=name, owner=None).slug == slug


def test_composer_without_a_name_is_refused() -> None:
    with pytest.raises(ValidationError) as caught:
        create_composer(name="", owner=make_user())

    assert list(caught.value.message_dict) == ["name"]
    assert Composer.objects.count() == 0


def test_composer_that_was_saved_in_between_is_not_overwritten() -> None:
    mine = make_composer()
    theirs = Composer.objects.get()
    theirs.telephone = "51 12 34"
    save_composer(composer=theirs, now=NOW)

    with pytest.raises(Overtaken) as caught:
        save_composer(composer=mine, now=NOW)

    assert (caught.value.latest, caught.value.latest.saves) == (theirs, 1)
    assert Composer.objects.get().telephone == "51 12 34"
