"""The kit of a job."""
from dataclasses import dataclass
@dataclass(frozen=True, slots=True)
class KitItem:
    name: str
    size: str | None
    first: float
    said: str
@dataclass(frozen=True)
class Kit:
    tools: tuple
    parts: tuple
    supplies: tuple
    fasteners: tuple
def find_kit(r, t):
    out={}
    for s in r.sightings:
        d=out.setdefault(s.kind,{})
        d.setdefault(s.name, KitItem(s.name,None,r.speech.tokens[s.start].start,r.speech.said(s.start,s.end)))
    g=lambda k: tuple(out.get(k,{}).values())
    return Kit(g('tool'),g('part'),g('supply'),g('fastener'))
