using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering.Faults;

/// <summary>Whether the pair is left and right rather than mid and side, and whether its roles are exchanged: probabilities by <see cref="PairModel"/>.</summary>
internal static class PairKindDetector
{
    // Of takes that are looked at, one in four is taken to be either before anything is heard.
    private const double Straight = 0.5, Swapped = 0.25, Decoded = 0.25, Said = 0.5, Sure = 0.9;

    public static IEnumerable<Finding> Find(TakeMeasures m, FaultMeasures f)
    {
        if (m.CopyResidual.Value < -40 || m.Mid.IsConstant || m.Side.IsConstant || PairNumbers.Of(m, f) is not { } numbers)
            yield break;
        var (swapped, decoded) = Probabilities(numbers);
        if (decoded >= Said && decoded >= swapped)
            yield return AlreadyDecoded(decoded, numbers, f.Cross!.Cells);
        else if (swapped >= Said)
            yield return RolesSwapped(swapped, numbers, f.Cross!.Cells);
    }

    /// <summary>What is said of a take.</summary>
    internal static (double Swapped, double Decoded) Probabilities(PairNumbers numbers)
    {
        var (a, b, c) = PairModel.Of(numbers);
        var sum = (a * Straight) + (b * Swapped) + (c * Decoded);
        return (b * Swapped / sum, c * Decoded / sum);
    }

    private static Evidence[] Numbers(PairNumbers x, PairCells cells) =>
    [
        new("second above first channel", cells.Level(0.5), "dB"), new("the same where sounds mix", cells.Level(0.5, 0, 0.5), "dB"),
        new("second above first, lowest tenth", cells.Level(0.1), "dB"), new("second above first, highest tenth", cells.Level(0.9), "dB"),
        new("the same from 10 to 80 Hz", 10 * x.Straight[PairAxes.Bins + 1], "dB"), new("the same in the quiet", 10 * x.Straight[PairAxes.Bins], "dB"),
        new("correlation", cells.Agreement, ""), new("cells opposed", 100 * cells.Opposed, "%"),
    ];

    private static Finding AlreadyDecoded(double p, PairNumbers x, PairCells cells) => new()
    {
        Kind = FaultKinds.AlreadyDecoded,
        Severity = p >= Sure ? FindingSeverity.Caution : FindingSeverity.Note,
        Confidence = p,
        Size = 100 * p,
        SizeUnit = "%",
        Message = Text($"With a probability of {100 * p:0} % the two channels are left and right, not mid and side: their levels differ by {Math.Abs(cells.Level(0.5, 0, 0.5)):0} dB where sounds mix, and they are opposed in {100 * cells.Opposed:0} % of what was heard. Decoded once more, stereo becomes half mono, half out of phase; mono becomes the left alone."),
        Remedy = "Listen to the two as they are; if they are left and right, do not decode them. Names of tracks and a rig profile say more than statistics.",
        Evidence = Numbers(x, cells),
    };

    private static Finding RolesSwapped(double p, PairNumbers x, PairCells cells) => new()
    {
        Kind = FaultKinds.RolesSwapped,
        Severity = p >= Sure ? FindingSeverity.Caution : FindingSeverity.Note,
        Confidence = p,
        Size = 100 * p,
        SizeUnit = "%",
        Message = Text($"With a probability of {100 * p:0} % the channel taken for the side is the mid: it lies {cells.Level(0.5):0} dB above the other in the middle, and {cells.Level(0.9):0} dB where the other vanishes. Decoded like this, stereo is out of phase and mono is the side alone. A sound straight from the side looks alike."),
        Remedy = "Listen to the channels one by one; say which is which with --mid and --side, or with roles. Names of tracks and a rig profile say more than statistics.",
        Evidence = Numbers(x, cells),
    };
}
