"""One answer for a subject that a rule looks at in several parts."""

from precover.rulebook import Answer, Outcome

_ORDER = (Outcome.NOT_MET, Outcome.CANNOT_TELL, Outcome.MET, Outcome.DOES_NOT_APPLY)


def worst(answers: list[Answer]) -> Answer:
    """The first that is not met, else the first that cannot be told, else the first that is met, else any."""
    if len(answers) == 1:
        return answers[0]
    outcomes = [answer.outcome for answer in answers]
    for outcome in _ORDER:
        if outcome in outcomes:
            return answers[outcomes.index(outcome)]
    raise ValueError("no answers")
