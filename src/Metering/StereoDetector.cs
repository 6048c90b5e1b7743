using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering;

/// <summary>Balance of mid and side, correlation of the decode, and noise that the side brings.</summary>
internal static class StereoDetector
{
    public static IEnumerable<Finding> Find(TakeMeasures m)
    {
        // With a dead or copied channel there is no stereo to judge.
        if (m.Mid.IsConstant || m.Side.IsConstant || m.AreIdentical || m.AreOpposite || m.CopyResidual.Value < -50)
            yield break;
        foreach (var finding in (Finding?[])[Balance(m), Correlation(m), SideNoise(m), NoisyTake(m)])
        {
            if (finding is not null)
                yield return finding;
        }
    }

    private static Finding? Balance(TakeMeasures m)
    {
        var difference = m.SideMinusMid.Value;
        // A diffuse field gives a figure-8 beside a cardioid of equal gain 0 dB, and a sound straight ahead gives nothing: only
        // the extremes are worth a word.
        if (difference is > -24 and < 9)
            return null;
        var weak = difference < 0;
        return new()
        {
            Kind = weak ? FindingKinds.SideWeak : FindingKinds.SideStrong,
            Severity = difference is < -36 or > 15 ? FindingSeverity.Caution : FindingSeverity.Note,
            Confidence = 0.5,
            Size = difference,
            SizeUnit = "dB",
            Message = weak
                ? Text($"The side lies {-difference:0.0} dB below the mid: the decode will be nearly mono. That is right for one sound straight ahead.")
                : Text($"The side lies {difference:0.0} dB above the mid: the sound came from the side, or the roles of the channels are swapped."),
            Remedy = weak ? "Check the side's gain; a higher side level widens, with the side's noise." : "Check which channel is which, and the mid's gain and aim.",
            Evidence = [new("mid rms", m.Mid.Rms.Value, "dBFS"), new("side rms", m.Side.Rms.Value, "dBFS")],
        };
    }

    private static Finding? Correlation(TakeMeasures m)
    {
        var (whole, worst, where) = m.Correlation;
        if (whole < -0.2)
            return OutOfPhase(m, whole, worst);
        if (!(worst < -0.5) || where is not { } range)
            return null;
        return new()
        {
            Kind = FindingKinds.LowCorrelation,
            Severity = worst < -0.8 ? FindingSeverity.Caution : FindingSeverity.Note,
            Range = range,
            Confidence = 0.7,
            Size = worst,
            Message = Text($"Decoded, left and right are opposed at {Time(range.From, m.SampleRateHertz)}: correlation {worst:0.00} over 400 ms ({whole:0.00} over the whole take)."),
            Remedy = "Listen there; a lower side level brings it back. The mono fold stays the mid.",
            Evidence = [new("worst correlation", worst, ""), new("whole correlation", whole, "")],
        };
    }

    private static Finding OutOfPhase(TakeMeasures m, double whole, double worst) => new()
    {
        Kind = FindingKinds.OutOfPhase,
        Severity = whole < -0.5 ? FindingSeverity.Caution : FindingSeverity.Note,
        Range = m.Correlation.WorstRange,
        Confidence = 0.8,
        Size = whole,
        Message = Text($"Decoded at this side level, left and right are opposed over the whole take: correlation {whole:0.00}, the side outweighs the mid by {m.SideMinusMid.Value + (20 * Math.Log10(m.SideGain)):0.0} dB."),
        Remedy = "Lower the side level, or check whether mid and side are swapped. The mono fold stays the mid.",
        Evidence = [new("whole correlation", whole, ""), new("worst correlation", worst, ""), new("side above mid", m.SideMinusMid.Value, "dB")],
    };

    private static Finding? SideNoise(TakeMeasures m)
    {
        var (mid, side) = (m.Mid.NoiseFloorWeighted, m.Side.NoiseFloorWeighted + Decibels.FromAmplitudeRatio(m.SideGain));
        var excess = (side - mid).Value;
        // Only where the take does fall quiet is the floor noise; and the side must be noisier than its share of the sound explains.
        var falls = (m.Side.LoudestRms - m.Side.NoiseFloor).Value > 12;
        if (!(excess > 6) || !falls || side.Value < -90 || excess < m.SideMinusMid.Value + 6)
            return null;
        return new()
        {
            Kind = FindingKinds.SideNoise,
            Severity = FindingSeverity.Note,
            Role = ChannelRole.Side,
            Confidence = 0.6,
            Size = excess,
            SizeUnit = "dB",
            Message = Text($"In the quiet of the take the side is {excess:0.0} dB noisier than the mid (K-weighted): widening brings its noise up."),
            Remedy = "Keep the side level modest, or treat the side against noise by itself.",
            Evidence = [new("mid floor", mid.Value, "dBFS"), new("side floor at this side level", side.Value, "dBFS")],
        };
    }

    private static Finding? NoisyTake(TakeMeasures m)
    {
        var range = (m.Mid.LoudestRms - m.Mid.NoiseFloor).Value;
        if (!(m.Mid.LoudestRms.Value < -60) || !(range < 12))
            return null;
        return new()
        {
            Kind = FindingKinds.NoisyTake,
            Severity = FindingSeverity.Note,
            Role = ChannelRole.Mid,
            Confidence = 0.5,
            Size = range,
            SizeUnit = "dB",
            Message = Text($"The loudest 400 ms reach {m.Mid.LoudestRms} only, {range:0.0} dB above the quiet: raised to a usual level, the noise will be heard."),
            Remedy = "Next time raise the gain or move closer.",
            Evidence = [new("loudest 400 ms", m.Mid.LoudestRms.Value, "dBFS"), new("noise floor", m.Mid.NoiseFloor.Value, "dBFS")],
        };
    }
}
