using System.Globalization;
using Athwart.Metering.LineUp;
using static System.FormattableString;

namespace Athwart.Jobs.LineUp;

/// <summary>What a line-up says, a sentence a number.</summary>
public static class LineUpWords
{
    /// <summary>Roles, polarity, gain, delay, spacing, angle, pattern and noise; what cannot be told is said with the reason.</summary>
    public static IEnumerable<string> Of(LineUpReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        var r = report.Result;
        yield return r.FirstIsMid.IsKnown
            ? Invariant($"mid is channel {report.MidChannel}, side is channel {report.SideChannel} (probability {r.FirstIsMid.Probability:0.000})")
            : "mid and side: cannot tell: " + r.FirstIsMid.Doubt;
        yield return r.SideInverted.IsKnown
            ? Invariant($"side's positive lobe points {(r.SideInverted.Answer ? "right: INVERTED" : "left, as it should")} (probability {r.SideInverted.Probability:0.000})")
            : "polarity: cannot tell: " + r.SideInverted.Doubt;
        yield return Number("gain offset, side over mid", r.GainOffset, "dB", "+0.00;−0.00;0.00");
        yield return Number("side late by", r.Delay, "frames", "0.00;−0.00;0.00");
        yield return Number("side ahead of mid by", Millimetres(r.SpacingForward), "mm", "0;−0;0");
        yield return Number("side to the left of mid by", Millimetres(r.SpacingLeft), "mm", "0;−0;0");
        yield return Number("side points to", r.SideAngle, "degrees left of the front", "0.0;−0.0;0.0");
        yield return Number("mid's pattern A, as heard", r.MeasuredMidPattern, "", "0.00");
        yield return Noise("mid", report.MidNoise, report.MidNoiseSoundLevel, report.MidInputNoise);
        yield return Noise("side", report.SideNoise, report.SideNoiseSoundLevel, report.SideInputNoise);
    }

    private static string Number(string what, Estimate estimate, string unit, string format) => estimate.IsKnown
        ? $"{what} {estimate.Value.ToString(format, CultureInfo.InvariantCulture)} ± {estimate.Uncertainty.ToString("0.##", CultureInfo.InvariantCulture)} {unit}".TrimEnd()
        : $"{what}: cannot tell: {estimate.Doubt}";

    private static Estimate Millimetres(Estimate metres) => metres.IsKnown ? Estimate.Of(metres.Value * 1000, metres.Uncertainty * 1000) : metres;

    private static string Noise(string role, ChannelNoiseMeasure noise, double? soundLevel, double? inputLevel)
    {
        if (!noise.Level.IsKnown)
            return $"noise of the {role}: cannot tell: {noise.Level.Doubt}";
        var input = inputLevel is { } volts ? Invariant($", {volts:0.0} dBu(A) at the input") : "";
        var pressure = soundLevel is { } level ? Invariant($", {level:0.0} dBA of sound") : "";
        var low = noise.LowestHertz.IsKnown ? Invariant($"; the sounds stand out of it from {noise.LowestHertz.Value:0} Hz up") : "";
        return Invariant($"noise of the {role} {noise.Level.Value:0.0} dBFS, {noise.WeightedLevel.Value:0.0} dBFS(A){input}{pressure}{low}").Replace(" -", " −", StringComparison.Ordinal);
    }
}
