using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>The correlation of left and right after decoding.</summary>
/// <param name="Whole">Over the whole take, −1 to +1; NaN when left or right is silent.</param>
/// <param name="Worst">The lowest over any 400 ms (100 ms grid) that is loud enough to hear: above −70 dBFS and within 40 dB of the
/// loudest 400 ms; NaN when there is none.</param>
/// <param name="WorstRange">Where the lowest is; null when there is none.</param>
public sealed record CorrelationMeasures(double Whole, double Worst, FrameRange? WorstRange);
