"""What could be better in a written week: each warning in words, with its reason and remedies ready to apply.

`model.py` holds the shapes; `volume.py`, `gaps.py`, `minutes.py` and `heads.py` find what is to be said; `scene.py`
tries a change and says its effect; `library.py` finds exercises to propose.
"""

from programs.services.advice.advise import advise
from programs.services.advice.model import Advice, Remedy

__all__ = ["Advice", "Remedy", "advise"]
