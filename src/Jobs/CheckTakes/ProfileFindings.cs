using System.Globalization;
using Athwart.Jobs.LineUp;
using Athwart.Jobs.Roles;
using Athwart.Metering;
using Athwart.Quantities;
using static System.FormattableString;

namespace Athwart.Jobs.CheckTakes;

/// <summary>Holds a take against the profile of the rig it was recorded with.</summary>
internal static class ProfileFindings
{
    /// <summary>The place decides how much side there is; this far from what the gains give in a place where sound comes from everywhere is worth a word. Common practice, no source.</summary>
    private const double FarDecibels = 10, VeryFarDecibels = 18;
    private const double SameDelayMicroseconds = 8;
    private const double LeastDelayFrames = 0.5;

    /// <summary>The same findings with what the profile adds to them, and what it finds itself.</summary>
    public static IEnumerable<Finding> Weigh(IEnumerable<Finding> findings, RoleAssignment roles, TakeMeasures measures, RigProfileDocument? rig)
    {
        var all = findings.ToList();
        if (rig is null || roles.SideChannel is null)
            return all;
        var index = all.FindIndex(f => f.Kind is "side-delay");
        if (Delay(index < 0 ? null : all[index], measures, rig) is { } delay)
        {
            if (index < 0)
                all.Add(delay);
            else
                all[index] = delay;
        }

        return [.. all, .. ((Finding?[])[Polarity(roles, rig), Gain(measures, rig)]).OfType<Finding>()];
    }

    private static string Since(RigProfileDocument rig) => $"the line-up of {rig.Measured ?? "the rig"}";

    private static Finding? Polarity(RoleAssignment roles, RigProfileDocument rig)
    {
        if (rig.SideInverted is not { } inverted || inverted == roles.SideInverted)
            return null;
        var p = rig.PolarityProbability;
        return new()
        {
            Kind = "side-inverted",
            Severity = p >= 0.95 ? FindingSeverity.Caution : FindingSeverity.Note,
            Role = ChannelRole.Side,
            Confidence = p,
            Size = 100 * p,
            SizeUnit = "%",
            Message = Invariant($"By {Since(rig)} the side's positive lobe points {(inverted ? "right" : "left")}, and here it is {(roles.SideInverted ? "turned over" : "taken as recorded")}: with a probability of {100 * p:0} % left and right are exchanged in stereo; mono is not concerned."),
            Remedy = inverted ? "Turn the side over: 'roles --invert-side' for the session or the take." : "Take the side as recorded: 'roles --invert-side false'.",
            Evidence = [new("probability by the line-up", 100 * p, "%")],
        };
    }

    private static Finding? Delay(Finding? measured, TakeMeasures measures, RigProfileDocument rig)
    {
        if (rig.DelayFrames.Value is not { } frames || !double.IsFinite(frames))
            return measured;
        var known = frames * measures.SampleRateHertz / rig.SampleRateHertz;
        var evidence = new Evidence("delay by the line-up", known, "frames");
        if (measured?.Size is not { } here)
            return Math.Abs(known) < LeastDelayFrames ? measured : FromLineUp(known, rig, measures.SampleRateHertz, evidence);
        var apart = Math.Abs(here - known) * 1e6 / measures.SampleRateHertz;
        return apart <= SameDelayMicroseconds
            ? measured with { Confidence = Math.Max(measured.Confidence, 0.95), Message = measured.Message + Invariant($" The line-up says the same: {known:0.00;−0.00} frames."), Evidence = [.. measured.Evidence, evidence] }
            : measured with { Confidence = measured.Confidence * 0.7, Message = measured.Message + Invariant($" {Capital(Since(rig))} has {known:0.00;−0.00} frames: the capsules were moved since, or this take says it less surely than the line-up."), Evidence = [.. measured.Evidence, evidence] };
    }

    private static Finding FromLineUp(double known, RigProfileDocument rig, int rate, Evidence evidence) => new()
    {
        Kind = "side-delay",
        Severity = FindingSeverity.Note,
        Role = ChannelRole.Side,
        Confidence = 0.9,
        Size = known,
        SizeUnit = "frames",
        Message = Invariant($"By {Since(rig)} the side comes {Math.Abs(known):0.00} frames ({Math.Abs(known) * 1e6 / rate:0} µs) {(known > 0 ? "after" : "before")} the mid; from this take alone it cannot be told. In stereo it colours what comes from the sides; mono is not concerned."),
        Remedy = Invariant($"Move the side by {-known:0.00;−0.00} frames."),
        Evidence = [evidence],
    };

    /// <summary>In a diffuse field a figure-8 has 1/3 of the power that an omni would, a mid of A + B·cos a A² + B²/3.</summary>
    private static Finding? Gain(TakeMeasures m, RigProfileDocument rig)
    {
        if (rig.GainOffsetDecibels.Value is not { } gain || !double.IsFinite(m.Mid.NoiseFloor.Value) || !double.IsFinite(m.Side.NoiseFloor.Value))
            return null;
        var (a, b) = (rig.MidPattern, 1 - rig.MidPattern);
        var expected = gain + (10 * Math.Log10(1 / 3.0 / ((a * a) + (b * b / 3))));
        var quiet = m.Side.NoiseFloor.Value - m.Mid.NoiseFloor.Value;
        var whole = m.SideMinusMid.Value;
        // A sound ahead or at the side moves the one, noise of a microphone the other; a gain that changed moves both alike.
        var off = Math.Abs(quiet - expected) < Math.Abs(whole - expected) ? quiet - expected : whole - expected;
        if (!(Math.Abs(off) >= FarDecibels) || Math.Sign(quiet - expected) != Math.Sign(whole - expected))
            return null;
        return new()
        {
            Kind = "side-unlike-profile",
            Severity = Math.Abs(off) >= VeryFarDecibels ? FindingSeverity.Caution : FindingSeverity.Note,
            Role = ChannelRole.Side,
            Confidence = Math.Abs(off) >= VeryFarDecibels ? 0.7 : 0.5,
            Size = off,
            SizeUnit = "dB",
            Message = string.Create(CultureInfo.InvariantCulture, $"The side lies {Math.Abs(off):0.0} dB {(off < 0 ? "lower" : "higher")} against the mid than {Since(rig)} leads to expect, in the quiet and over the whole: a gain was turned, a cable or battery failed, or nearly all sound came from {(off < 0 ? "ahead" : "the sides")}. Decoded, the image is {(off < 0 ? "narrower" : "wider")}; mono is {(off < 0 ? "not concerned" : "weak")}."),
            Remedy = string.Create(CultureInfo.InvariantCulture, $"Compare with a take before and after; if the gain was turned, {new Decibels(-off)} on the side puts it back."),
            Evidence = [new("gain offset by the line-up", gain, "dB"), new("expected in a diffuse field", expected, "dB"), new("in the quiet", quiet, "dB"), new("over the whole", whole, "dB")],
        };
    }

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
