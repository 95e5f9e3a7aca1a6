"""Random shows of companies that share the air: stages, acts of a bill, backups, in-ears, guests and another house."""

from random import Random


def meeting_show(seed: int) -> str:
    """The show of a seed as YAML: up to nine channels, most with a frequency, clean or not."""
    dice = Random(seed)
    zones = dice.choice(((), ("east", "west"), ("east", "west")))
    acts = dice.choice(((), ("early", "late"), ("early", "late", "all day")))
    lines = [
        "show: {title: Glass Ferry, dates: 2027-07-10 to 2027-07-12}",
        f"spectrum: {{region: Europe, tv: [{dice.choice(('', '22', '23'))}]}}",
        "day: {times: clock}",
        "radios:",
        "  belt: {kind: pack, tunes: 470-500, step: 25 kHz, bandwidth: 200 kHz}",
        "  hand: {kind: handheld, tunes: 470-500, step: 50 kHz, bandwidth: 300 kHz, apart: 150 kHz, intermodulation: no}",
        "  ears: {tunes: 474-490, step: 25 kHz, bandwidth: 200 kHz}",
    ]
    if zones or acts:
        lines += ["groups:", *(f"  {zone}: {{kind: zone}}" for zone in zones)]
        hours = {"early": ("10:00", "11:00"), "late": ("11:30", "12:30"), "all day": ("09:00", "13:00")}
        lines += (
            f"  {act}: {{kind: bill, from: '2027-07-10 {hours[act][0]}', until: '2027-07-10 {hours[act][1]}'}}"
            for act in acts
        )
    lines.append("channels:")
    count = dice.randint(2, 9)
    for number in range(1, count + 1):
        row = [f"role: R{number}", f"by: Person {number}", f"radio: {dice.choice(('belt', 'belt', 'hand'))}"]
        if dice.random() < 0.9:
            row.append(f"mhz: {_pick_mhz(dice)}")
            if dice.random() < 0.25:
                row.append(f"backup: {_pick_mhz(dice)}")
        row += [f"zone: {dice.choice(zones or ('',))}"] * (bool(zones) and dice.random() < 0.8)
        row += [f"bill: {dice.choice(acts or ('',))}"] * (bool(acts) and dice.random() < 0.8)
        lines.append(f"  {number}: {{{', '.join(row)}}}")
    others = [f"  E{at}: {{kind: in-ear, radio: ears, mhz: {_pick_mhz(dice)}}}" for at in range(dice.randint(0, 2))]
    others += [f"  NEXT DOOR: {{kind: neighbour, mhz: {_pick_mhz(dice)}}}"] * (dice.random() < 0.4)
    lines += ["others:", *others] if others else []
    if dice.random() < 0.4:
        lines += [
            "venues:",
            f"  v1: {{venue: Pier, section: channels, record: 1, field: mhz, value: {_pick_mhz(dice)}}}",
        ]
    if dice.random() < 0.4:
        lines += ["performances:", "  noon: {date: 2027-07-11, curtain: '12:00'}"]
    return "\n".join(lines) + "\n"


def _pick_mhz(dice: Random) -> str:
    return f"{474 + dice.randint(4, 316) * 0.05:.3f}"
