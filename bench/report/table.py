"""The table of the report: its lines, how they are judged, and how they are printed."""
import dataclasses

NOISY = 1.15  # median over least, above which a time is not believed
NEAR = 0.05  # of the limit


@dataclasses.dataclass
class Line:
    figure: str
    peer: str
    limit: str  # "<= 1.03": ours over the peer's; ">= 5": how many times as fast
    ours: str = ""
    theirs: str = ""
    ratio: str = ""
    native: str = ""
    load: str = ""
    verdict: str = "not measured"


COLUMNS = [("figure", "figure"), ("peer", "beside"), ("ours", "ours"), ("theirs", "beside it"), ("ratio", "ratio"),
           ("native", "native"), ("limit", "limit"), ("load", "load"), ("verdict", "verdict")]


def split_limit(limit):
    sign, number = limit.split()
    return sign, float(number)


def judge(ratio, limit, timed):
    sign, bound = split_limit(limit)
    if timed and abs(ratio - bound) <= NEAR * bound:
        return "at the limit"
    return "met" if (ratio <= bound if sign == "<=" else ratio >= bound) else "miss"


def seconds(value):
    if value >= 1:
        return f"{value:.3g} s"
    return f"{value * 1e3:.3g} ms" if value >= 1e-3 else f"{value * 1e6:.3g} us"


def missing(figure, peer, limit):
    return Line(figure, peer, limit, verdict="not installed")


def timed_line(figure, peer, limit, ours, theirs, load, native=None, clock="processor"):
    """Ours and theirs are Times."""
    sign, _ = split_limit(limit)

    def ratio(a):
        return a.least(clock) / theirs.least(clock) if sign == "<=" else theirs.least(clock) / a.least(clock)

    def shown(a):
        return f"{seconds(a.least(clock))} / {seconds(a.median(clock))}"

    noisy = max(a.median(clock) / a.least(clock) for a in (ours, theirs)) > NOISY
    verdict = judge(ratio(ours), limit, True)
    return Line(figure, peer, limit, shown(ours), shown(theirs), f"{ratio(ours):.3g}",
                f"{ratio(native):.3g}" if native else "", f"{load:.1f}",
                f"noisy ({verdict})" if noisy else verdict)


def value_line(figure, peer, limit, ours, theirs, form="{:.4e}"):
    """Of what is the same each time: nothing is noisy, and a limit is a limit."""
    sign, _ = split_limit(limit)
    ratio = ours / theirs if sign == "<=" else theirs / ours
    return Line(figure, peer, limit, form.format(ours), form.format(theirs), f"{ratio:.4f}", "", "",
                judge(ratio, limit, False))


def count_line(figure, what, count, of):
    """`count` cases that should be none."""
    return Line(figure, what, "<= 0", str(count), f"of {of}", "", "", "", "met" if count == 0 else "miss")


def as_text(lines):
    rows = [[head for _, head in COLUMNS]] + [[getattr(line, key) for key, _ in COLUMNS] for line in lines]
    widths = [max(len(row[i]) for row in rows) for i in range(len(COLUMNS))]
    return "\n".join("  ".join(cell.ljust(width) for cell, width in zip(row, widths)).rstrip() for row in rows) + "\n"


def as_markdown(lines):
    rows = [[head for _, head in COLUMNS]] + [[getattr(line, key) for key, _ in COLUMNS] for line in lines]
    rows.insert(1, ["---", "---", "---:", "---:", "---:", "---:", "---:", "---:", "---"])
    return "\n".join("| " + " | ".join(row) + " |" for row in rows) + "\n"
