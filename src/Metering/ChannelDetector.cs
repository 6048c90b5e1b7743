using Athwart.Quantities;
using static Athwart.Metering.FindingText;

namespace Athwart.Metering;

/// <summary>Channels that hold nothing, the same, or an offset, and stretches of exact zeros.</summary>
internal static class ChannelDetector
{
    private static double DeadDecibels => -90;

    private static double LivingDecibels => -66;

    public static Finding? SilentTake(TakeMeasures m)
    {
        var peak = Math.Max(m.Mid.SamplePeak.Value, m.Side.SamplePeak.Value);
        if (peak > -80 && !(m.Mid.IsConstant && m.Side.IsConstant))
            return null;
        return new()
        {
            Kind = FindingKinds.SilentTake,
            Severity = FindingSeverity.Fault,
            Size = peak,
            SizeUnit = "dBFS",
            Message = $"The take is silent: no sample of mid or side goes beyond {new DecibelsFullScale(peak)}.",
            Remedy = "Check the cables, the inputs that were armed and the gains; leave the take out.",
            Evidence = [new("mid peak", m.Mid.SamplePeak.Value, "dBFS"), new("side peak", m.Side.SamplePeak.Value, "dBFS")],
        };
    }

    public static IEnumerable<Finding> Find(TakeMeasures m)
    {
        var dead = Dead(m);
        if (dead is not null)
            yield return dead;
        else if (Copy(m) is { } copy)
            yield return copy;
        foreach (var finding in Silence(m, dead?.Role))
            yield return finding;
        foreach (var role in (RoleMeasures[])[m.Mid, m.Side])
        {
            if (role.Role != dead?.Role && DcOffset(role) is { } offset)
                yield return offset;
        }
    }

    private static Finding? Dead(TakeMeasures m)
    {
        var (quiet, loud) = Ac(m.Mid) < Ac(m.Side) ? (m.Mid, m.Side) : (m.Side, m.Mid);
        if (!quiet.IsConstant && !(Ac(quiet) < DeadDecibels && Ac(loud) > LivingDecibels && quiet.SamplePeak.Value < -80))
            return null;
        var (name, other) = (Name(quiet.Role), Name(loud.Role));
        return new()
        {
            Kind = FindingKinds.DeadChannel,
            Severity = FindingSeverity.Fault,
            Role = quiet.Role,
            Size = quiet.SamplePeak.Value,
            SizeUnit = "dBFS",
            Confidence = quiet.IsConstant ? 1 : 0.8,
            Message = quiet.IsConstant
                ? $"The {name} is dead: every sample has the same value, while the {other} peaks at {loud.SamplePeak}."
                : $"The {name} is all but dead at {quiet.Rms} rms, while the {other} has {loud.Rms}.",
            Remedy = quiet.Role == ChannelRole.Side
                ? "Deliver the mid as mono; check the side's cable, phantom power and input."
                : "Check which channel is which; without a mid there is no decode. Check its cable, phantom power and input.",
            Evidence = [new(name + " rms", quiet.Rms.Value, "dBFS"), new(other + " rms", loud.Rms.Value, "dBFS")],
        };
    }

    /// <summary>Root mean square without the offset, in dBFS.</summary>
    private static double Ac(RoleMeasures role) =>
        10 * Math.Log10(Math.Max(0, Math.Pow(10, role.Rms.Value / 10) - (role.DcOffset * role.DcOffset)));

    private static Finding? Copy(TakeMeasures m)
    {
        var exact = m.AreIdentical || m.AreOpposite;
        var residual = m.CopyResidual.Value;
        // Two real microphones in one place never agree to −50 dB over a whole take.
        if (!exact && !(residual < -50))
            return null;
        var gain = Decibels.FromAmplitudeRatio(m.CopyGain);
        var inverted = m.CopyGain < 0 ? " with the polarity inverted" : "";
        return new()
        {
            Kind = exact ? FindingKinds.IdenticalChannels : FindingKinds.ScaledCopy,
            Severity = FindingSeverity.Fault,
            Confidence = exact ? 1 : 0.9,
            Size = exact ? 0 : gain.Value,
            SizeUnit = "dB",
            Message = exact
                ? $"Mid and side are the same, sample for sample{inverted}: there is no side."
                : Text($"The side is a copy of the mid at {gain}{inverted}, to {new Decibels(residual)}: there is no side."),
            Remedy = "Deliver the mid as mono; look for a recorder set to dual mono, or one microphone routed to both inputs.",
            Evidence = [new("residual", residual, "dB"), new("gain of the copy", gain.Value, "dB")],
        };
    }

    private static IEnumerable<Finding> Silence(TakeMeasures m, ChannelRole? dead)
    {
        foreach (var finding in Silence(m.DigitalSilence, null, m))
            yield return finding;
        foreach (var role in (RoleMeasures[])[m.Mid, m.Side])
        {
            // Where both are silent it was said above; what is left is this channel alone.
            if (role.Role == dead || role.DigitalSilence.Frames - m.DigitalSilence.Frames < m.SampleRateHertz / 20)
                continue;
            foreach (var finding in Silence(role.DigitalSilence, role.Role, m))
                yield return finding;
        }
    }

    private static IEnumerable<Finding> Silence(SampleRuns runs, ChannelRole? role, TakeMeasures m)
    {
        var (listed, others) = Choose(runs, s => s.Range.Length.Value);
        foreach (var s in listed)
        {
            var inside = s.Range.From.Value > 0 && s.Range.To.Value < m.FrameCount.Value;
            var seconds = s.Range.Length.At(m.SampleRateHertz).TotalSeconds;
            yield return new()
            {
                Kind = FindingKinds.DigitalSilence,
                Severity = inside ? FindingSeverity.Caution : FindingSeverity.Note,
                Role = role,
                Range = s.Range,
                Size = seconds,
                SizeUnit = "s",
                Message = Text($"{(role is { } r ? "The " + Name(r) + " alone is" : "Mid and side are")} exactly zero for {seconds:0.00} s from {Time(s.Range.From, m.SampleRateHertz)}.{Besides(others, s == listed[^1])}"),
                Remedy = inside ? "No microphone is that quiet: suspect a dropout or a muted input, and cut around it." : "Trim it when cutting.",
                Evidence = [new("longest run", s.LongestFrames, "frames")],
            };
        }
    }

    private static Finding? DcOffset(RoleMeasures role)
    {
        var size = Math.Abs(role.DcOffset);
        // −60 dBFS, and steady: a mean of low-frequency sound wanders, an offset does not.
        if (size < 0.001 || !(size > 5 * role.DcUncertainty))
            return null;
        var level = DecibelsFullScale.FromAmplitude(size);
        return new()
        {
            Kind = FindingKinds.DcOffset,
            Severity = size >= 0.01 ? FindingSeverity.Caution : FindingSeverity.Note,
            Role = role.Role,
            Size = 100 * role.DcOffset,
            SizeUnit = "%",
            Confidence = 0.9,
            Message = Text($"The {Name(role.Role)} has a steady offset of {100 * role.DcOffset:0.00} % of full scale ({level})."),
            Remedy = "Take it out with a high-pass when shaping; cuts without fades would click.",
            Evidence = [new("offset", role.DcOffset, ""), new("standard error", role.DcUncertainty, "")],
        };
    }
}
