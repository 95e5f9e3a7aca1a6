"""The show as facts: frozen records with typed values, every reference resolved to an id that exists.

Frequencies are whole hertz, times whole seconds, dates ISO text. Each record says where it was written (`where`),
which is no part of its value: a show read from YAML equals its twin read from a workbook.
"""

from paperwork.model.company import Audience as Audience
from paperwork.model.company import ChangePoint as ChangePoint
from paperwork.model.company import Channel as Channel
from paperwork.model.company import Cover as Cover
from paperwork.model.company import Day as Day
from paperwork.model.company import Follows as Follows
from paperwork.model.company import Look as Look
from paperwork.model.company import Measured as Measured
from paperwork.model.company import Move as Move
from paperwork.model.company import PaperSize as PaperSize
from paperwork.model.company import Performance as Performance
from paperwork.model.company import PerformanceKind as PerformanceKind
from paperwork.model.company import Person as Person
from paperwork.model.company import Production as Production
from paperwork.model.company import Role as Role
from paperwork.model.company import Scene as Scene
from paperwork.model.company import SceneKind as SceneKind
from paperwork.model.company import Spectrum as Spectrum
from paperwork.model.gear import Capsule as Capsule
from paperwork.model.gear import Console as Console
from paperwork.model.gear import Group as Group
from paperwork.model.gear import GroupKind as GroupKind
from paperwork.model.gear import Other as Other
from paperwork.model.gear import Output as Output
from paperwork.model.gear import OutputKind as OutputKind
from paperwork.model.gear import Rack as Rack
from paperwork.model.gear import RadioKind as RadioKind
from paperwork.model.gear import RadioType as RadioType
from paperwork.model.gear import Slot as Slot
from paperwork.model.gear import Transmitter as Transmitter
from paperwork.model.outside import AntennaKind as AntennaKind
from paperwork.model.outside import AntennaPart as AntennaPart
from paperwork.model.outside import Contact as Contact
from paperwork.model.outside import Hire as Hire
from paperwork.model.outside import VenueRow as VenueRow
from paperwork.model.show import Show as Show
from paperwork.model.where import NO_PLACE as NO_PLACE
from paperwork.model.where import Where as Where
