"""Exercises, equipment and anatomy."""

from django.urls import path

from programs.views import (
    anatomy,
    equipment_archive,
    equipment_detail,
    equipment_edit,
    equipment_list,
    exercise_archive,
    exercise_detail,
    exercise_edit,
    exercise_grades,
    exercise_list,
)

urlpatterns = [
    path("exercises/", exercise_list.exercise_list, name="exercise-list"),
    path("exercises/new/", exercise_edit.exercise_create, name="exercise-create"),
    path("exercises/<int:exercise_id>/", exercise_detail.exercise_detail, name="exercise-detail"),
    path("exercises/<int:exercise_id>/edit/", exercise_edit.exercise_edit, name="exercise-edit"),
    path("exercises/<int:exercise_id>/archive/", exercise_archive.exercise_archive, name="exercise-archive"),
    path("exercises/<int:exercise_id>/restore/", exercise_archive.exercise_restore, name="exercise-restore"),
    path("exercises/<int:exercise_id>/grades/", exercise_grades.exercise_grades, name="exercise-grades"),
    path("equipment/", equipment_list.equipment_list, name="equipment-list"),
    path("equipment/new/", equipment_edit.equipment_create, name="equipment-create"),
    path("equipment/<int:equipment_id>/", equipment_detail.equipment_detail, name="equipment-detail"),
    path("equipment/<int:equipment_id>/edit/", equipment_edit.equipment_edit, name="equipment-edit"),
    path("equipment/<int:equipment_id>/archive/", equipment_archive.equipment_archive, name="equipment-archive"),
    path("equipment/<int:equipment_id>/restore/", equipment_archive.equipment_restore, name="equipment-restore"),
    path("anatomy/", anatomy.anatomy, name="anatomy"),
]
