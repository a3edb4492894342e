"""What the model does not know, in plain sentences: shown beside the workings and printed on the sheet."""

MODEL_LIMITS = (
    "The contents are taken as stirred. Ice may form on a cold wall while the middle still reads one or two "
    "degrees above freezing: keep what is held at 3 °C (37 °F) or more.",
    "Below 4 °C (39 °F) water over a floor pad lies still, and the wall there gets hotter than said.",
    "Solids and sludge, snow, rain and driving wind, wet or squeezed insulation are not in the figures.",
    "Waste is taken as water, which errs on the cold side.",
    "Losses are not known better than a quarter either way; the bands say what that does.",
)
