"""What the model lacks for a slender vehicle, for the captions of figures."""

# Fineness ratio of a vehicle above which its figures say so, as the caution does.
SLENDER = 20.0


def slender(fineness: float) -> str:
    """Say what sets the limit of a vehicle of that fineness ratio; nothing for a stouter one.

    >>> slender(20.0), slender(24.6)[:34]
    ('', 'body lift, stability at angle of a')
    """
    if fineness <= SLENDER:
        return ""
    return (
        "body lift, stability at angle of attack and bending set the limit of a vehicle of "
        f"fineness ratio {fineness:.0f}, and none of them is in this model"
    )
