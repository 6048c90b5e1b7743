using static System.FormattableString;

namespace Athwart.Jobs.LineUp;

/// <summary>What changed in a rig since it was last measured.</summary>
internal static class RigComparison
{
    private const double LeastDecibels = 0.5;
    private const double LeastMicroseconds = 5;
    private const double LeastNoiseDecibels = 3;
    private const double LeastDegrees = 3;

    /// <summary>A sentence for each change beyond the uncertainty of both measurements; one that says so when there is none.</summary>
    public static IReadOnlyList<string> Changes(RigProfileDocument before, RigProfileDocument now)
    {
        var since = "since " + (before.Measured ?? "the last line-up");
        IEnumerable<string?> all =
        [
            before.MidChannel != now.MidChannel && before.MidChannel is not null && now.MidChannel is not null ? $"Mid and side changed channels {since}." : null,
            before.SideInverted is { } was && now.SideInverted is { } isNow && was != isNow ? $"The side's polarity changed over {since}." : null,
            Gain(before, now, since),
            Delay(before, now, since),
            Change(before.SideAngleDegrees, now.SideAngleDegrees, LeastDegrees) is { } turn ? Invariant($"The side turned {Math.Abs(turn):0} degrees to the {(turn > 0 ? "left" : "right")} {since}.") : null,
            Noise("mid", before.MidNoise, now.MidNoise, since),
            Noise("side", before.SideNoise, now.SideNoise, since),
        ];
        var changes = all.OfType<string>().ToList();
        return changes.Count > 0 ? changes : [$"Nothing changed {since} beyond what a line-up can tell."];
    }

    private static string? Gain(RigProfileDocument before, RigProfileDocument now, string since)
    {
        if (Change(before.GainOffsetDecibels, now.GainOffsetDecibels, LeastDecibels) is not { } change)
            return null;
        var note = before.MidPattern == now.MidPattern ? "" : " (but the mid's pattern was taken as another then)";
        return Invariant($"The side is {Math.Abs(change):0.0} dB {(change < 0 ? "down" : "up")} against the mid {since}{note}.");
    }

    private static string? Delay(RigProfileDocument before, RigProfileDocument now, string since)
    {
        var (b, n) = (Microseconds(before.DelayFrames, before.SampleRateHertz), Microseconds(now.DelayFrames, now.SampleRateHertz));
        return Change(b, n, LeastMicroseconds) is { } change ? Invariant($"The side is {Math.Abs(change):0} µs {(change > 0 ? "later" : "earlier")} {since}.") : null;
    }

    private static string? Noise(string role, NoiseDocument before, NoiseDocument now, string since) =>
        Change(before.DecibelsFullScaleA, now.DecibelsFullScaleA, LeastNoiseDecibels) is { } change
            ? Invariant($"The noise of the {role} is {Math.Abs(change):0.0} dB {(change > 0 ? "up" : "down")} {since}: another place, another gain, or the microphone.")
            : null;

    private static NumberDocument Microseconds(NumberDocument frames, int rate) => new(frames.Value * 1e6 / rate, frames.Uncertainty * 1e6 / rate, frames.Doubt);

    private static double? Change(NumberDocument before, NumberDocument now, double least)
    {
        if (now.Value - before.Value is not { } change)
            return null;
        var (u, v) = (before.Uncertainty ?? 0, now.Uncertainty ?? 0);
        return Math.Abs(change) > Math.Max(least, Math.Sqrt((u * u) + (v * v))) ? change : null;
    }
}
