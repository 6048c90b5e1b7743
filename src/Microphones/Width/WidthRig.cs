using Athwart.Microphones.Patterns;
using Athwart.Quantities;

namespace Athwart.Microphones.Width;

/// <summary>The rig that a width in degrees or in correlation refers to, with what had to be assumed about it.</summary>
/// <param name="Mid">The mid's pattern.</param>
/// <param name="Side">The side's pattern; a figure-8.</param>
/// <param name="RecordedSideLevel">
/// The side's sensitivity on its axis against the mid's on its own, gains included, as they were recorded; 0 dB when they were matched.
/// A side level to decode at is the matched one less this.
/// </param>
/// <param name="Frequency">Where measured patterns are read; ignored by first-order ones.</param>
/// <param name="Assumptions">Whole sentences without a full stop, one for each thing that was not known; empty when all was.</param>
public sealed record WidthRig(IPattern Mid, IPattern Side, Decibels RecordedSideLevel, Hertz Frequency, IReadOnlyList<string> Assumptions)
{
    /// <summary>1 kHz, the reference frequency of patterns (IEC 60268-4:2014, 11.3).</summary>
    public static Hertz ReferenceFrequency { get; } = new(1000);

    /// <summary>What is taken when nothing is known: an ideal cardioid and an ideal figure-8, equally sensitive as recorded.</summary>
    public static WidthRig Assumed { get; } = Of(null, null, null);

    /// <summary>A rig of which some things may be unknown (null): a cardioid, a figure-8 and matched levels are assumed then, and said.</summary>
    public static WidthRig Of(IPattern? mid, IPattern? side, Decibels? recordedSideLevel)
    {
        if (recordedSideLevel is { } level && !double.IsFinite(level.Value))
            throw new ArgumentOutOfRangeException(nameof(recordedSideLevel), level.Value, "the recorded side level is a number of decibels; give 0 when the gains were matched");
        List<string> assumptions = [];
        if (mid is null)
            assumptions.Add("the mid's pattern is not known: an ideal cardioid is assumed");
        if (side is null)
            assumptions.Add("the side's pattern is not known: an ideal figure-8 is assumed");
        if (recordedSideLevel is null)
            assumptions.Add("the gains of mid and side are not known: both are taken as equally sensitive as recorded");
        return new(mid ?? FirstOrderPattern.Cardioid, side ?? FirstOrderPattern.FigureEight, recordedSideLevel ?? default, ReferenceFrequency, assumptions);
    }

    /// <summary>The side level to decode at for one that holds between matched microphones.</summary>
    internal Decibels ToDecode(Decibels matched) => matched - RecordedSideLevel;

    /// <summary>What a side level of the decode amounts to between matched microphones.</summary>
    internal Decibels ToMatched(Decibels decode) => decode + RecordedSideLevel;
}
