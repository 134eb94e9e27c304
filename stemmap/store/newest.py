"""What a survey file holds last, to see whether somebody wrote into it meanwhile."""

from __future__ import annotations

from dataclasses import dataclass

from stemmap.store.survey_file import SurveyFile, told
from stemmap.survey.journal import Entry


@dataclass(frozen=True)
class Newest:
    """Numbers of the newest journal entry, upload and settings; 0 where there is none."""

    entry: int = 0
    upload: int = 0
    settings: int = 0


def newest(survey_file: SurveyFile) -> Newest:
    """Numbers of what was written last.

    Raises
    ------
    Damaged
        When the file is damaged.
    """
    with told(survey_file.path):
        row = survey_file.connection.execute(
            "SELECT (SELECT MAX(entry) FROM journal), (SELECT MAX(id) FROM uploads), (SELECT MAX(id) FROM settings)"
        ).fetchone()
    return Newest(*(max(int(number or 0), 0) for number in row))


def goes_on(survey_file: SurveyFile, entry: Entry) -> bool:
    """Whether a journal has an entry that is known; without it the file is another one, such as an earlier copy."""
    with told(survey_file.path):
        row = survey_file.connection.execute(
            "SELECT time, finding FROM journal WHERE entry = ?", (entry.entry,)
        ).fetchone()
    return row is not None and tuple(map(str, row)) == (entry.time, entry.finding)


def added_after(survey_file: SurveyFile, upload: int) -> list[tuple[str, str]]:
    """Who added uploads after a numbered one, and when, in their order."""
    with told(survey_file.path):
        return [
            (str(who), str(time))
            for who, time in survey_file.connection.execute(
                "SELECT who, time FROM uploads WHERE id > ? ORDER BY id", (upload,)
            )
        ]


def changed_after(survey_file: SurveyFile, entry: int) -> bool:
    """Whether uploads or settings came after a journal entry, so that records were others then."""
    with told(survey_file.path):
        row = survey_file.connection.execute(
            "SELECT EXISTS (SELECT 1 FROM uploads WHERE after_entry > ?1) "
            "OR EXISTS (SELECT 1 FROM settings WHERE after_entry > ?1)",
            (entry,),
        ).fetchone()
    return bool(row[0])
