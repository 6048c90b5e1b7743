using Athwart.Metering.Faults;
using Athwart.Metering.Slate;
using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>Everything one read of a mid/side take gave.</summary>
/// <remarks>
/// Loudness and correlation of the decode can be had for any other side gain without reading again; the decoded peaks can not, they
/// belong to <see cref="SideGain"/>.
/// </remarks>
public sealed class TakeMeasures
{
    private readonly PairTrack _track;
    private readonly PairSums _total;

    internal TakeMeasures(PairTrack track, PairSums total, double sideGain)
    {
        (_track, _total, SideGain) = (track, total, sideGain);
        Loudness = LoudnessAt(sideGain);
        Correlation = CorrelationAt(sideGain);
    }

    /// <summary>Frames read.</summary>
    public FrameCount FrameCount => new(_track.Frames);

    /// <summary>Sample rate in hertz.</summary>
    public int SampleRateHertz => _track.Grid.SampleRateHertz;

    /// <summary>How the samples were stored.</summary>
    public required SampleScale Scale { get; init; }

    /// <summary>g of the decode these measures are for; an amplitude ratio.</summary>
    public double SideGain { get; }

    /// <summary>The mid as recorded.</summary>
    public required RoleMeasures Mid { get; init; }

    /// <summary>The side as recorded.</summary>
    public required RoleMeasures Side { get; init; }

    /// <summary>The decoded left, mid + g·side.</summary>
    public required RoleMeasures Left { get; init; }

    /// <summary>The decoded right, mid − g·side.</summary>
    public required RoleMeasures Right { get; init; }

    /// <summary>Mid, side, left and right.</summary>
    public IReadOnlyList<RoleMeasures> Roles => [Mid, Side, Left, Right];

    /// <summary>
    /// How far the root mean square of the side lies above that of the mid, DC removed; −∞ with a silent side, +∞ with a silent mid,
    /// NaN when both are silent.
    /// </summary>
    public Decibels SideMinusMid => new(10 * Math.Log10(Variance(_total.SecondSquared, _total.Second) / Variance(_total.FirstSquared, _total.First)));

    /// <summary>Σ mid·side / √(Σ mid² · Σ side²), −1 to +1; NaN when one is silent.</summary>
    public double MidSideCorrelation => _total.FirstSquared > 0 && _total.SecondSquared > 0
        ? Math.Clamp(_total.Product / Math.Sqrt(_total.FirstSquared * _total.SecondSquared), -1, 1)
        : double.NaN;

    /// <summary>
    /// What is left of the side when the best copy of the mid (any gain and polarity, DC removed) is taken away, relative to the side:
    /// −∞ dB for an exact copy, 0 dB for unrelated channels; NaN when one is silent.
    /// </summary>
    public Decibels CopyResidual
    {
        get
        {
            var product = Covariance() * Covariance() / (Variance(_total.FirstSquared, _total.First) * Variance(_total.SecondSquared, _total.Second));
            return new(10 * Math.Log10(Math.Max(0, 1 - product)));
        }
    }

    /// <summary>The gain, an amplitude ratio with sign, by which the side is the best copy of the mid; NaN for a silent mid.</summary>
    public double CopyGain => Covariance() / Variance(_total.FirstSquared, _total.First);

    /// <summary>Whether every sample of the side equals that of the mid; true for an empty take.</summary>
    public bool AreIdentical { get; init; }

    /// <summary>Whether every sample of the side is the negative of that of the mid; true for an empty take.</summary>
    public bool AreOpposite { get; init; }

    /// <summary>Stretches of 50 ms or longer in which both channels are exactly zero.</summary>
    public SampleRuns DigitalSilence { get; init; } = SampleRuns.None;

    /// <summary>What was heard of faults; null when not asked for.</summary>
    internal FaultMeasures? Faults { get; init; }

    /// <summary>The head of the take as a voice would be heard in it; null when not asked for.</summary>
    internal SlateHead? Slate { get; init; }

    /// <summary>What was kept of the stream.</summary>
    internal PairTrack Track => _track;

    /// <summary>Loudness of the decode at <see cref="SideGain"/>.</summary>
    public LoudnessMeasures Loudness { get; }

    /// <summary>Correlation of the decode at <see cref="SideGain"/>.</summary>
    public CorrelationMeasures Correlation { get; }

    /// <summary>Correlation of left and right over the whole take.</summary>
    public double LeftRightCorrelation => Correlation.Whole;

    /// <summary>Loudness of the decode at another side gain, without reading again.</summary>
    /// <param name="sideGain">g, an amplitude ratio; 0 is mono.</param>
    public LoudnessMeasures LoudnessAt(double sideGain) => LoudnessGates.Measure(_track.EnergiesAt(sideGain), _track.Grid);

    /// <summary>Correlation of the decode at another side gain, without reading again.</summary>
    /// <param name="sideGain">g, an amplitude ratio; 0 is mono, where the correlation is 1.</param>
    public CorrelationMeasures CorrelationAt(double sideGain) => PairCorrelation.Measure(_track, _total, sideGain);

    /// <summary>The loudest sample frame's true peak of left and right together.</summary>
    public DecibelsFullScale DecodedTruePeak => Left.TruePeak > Right.TruePeak ? Left.TruePeak : Right.TruePeak;

    private double Variance(double squares, double sum) => _total.Frames > 0 ? Math.Max(0, squares - (sum * sum / _total.Frames)) : 0;

    private double Covariance() => _total.Frames > 0 ? _total.Product - (_total.First * _total.Second / _total.Frames) : 0;
}
