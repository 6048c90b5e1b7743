using Athwart.Metering.Width;
using Athwart.Quantities;
using static System.FormattableString;

namespace Athwart.Jobs.CheckTakes;

/// <summary>Width, lean and mono in two or three sentences.</summary>
public static class WidthWords
{
    private const double LeansDecibels = 1.5, LosesDecibels = 3;

    /// <summary>How it leans, where it is most opposed, what mono loses, and which side levels are safe.</summary>
    public static string Of(WidthMeasures width, int rate)
    {
        ArgumentNullException.ThrowIfNull(width);
        List<string> said = [Lean(width, rate)];
        if (width.WorstMoments.Count > 0)
            said.Add(Invariant($"Left and right oppose each other most at {string.Join(", ", width.WorstMoments.Take(3).Select(m => Invariant($"{m.Range.From.At(rate).TotalSeconds:0.0} s (correlation {m.Value:0.00;−0.00})")))}.").Replace("-", "−", StringComparison.Ordinal));
        if (width.MonoLoss.Count > 0)
            said.Add(Mono(width));
        if (width is { SafeUpTo: { } safe, WideFrom: { } from } && double.IsFinite(safe.Value) && double.IsFinite(from.Value))
        {
            said.Add(from.Value < safe.Value
                ? $"Side levels from {from} to {safe} are wider than mono and safe in it."
                : $"A side level of {safe} or less is safe in mono, but is hardly wider than mono.");
        }

        return string.Join(" ", said);
    }

    private static string Lean(WidthMeasures width, int rate)
    {
        var lean = width.LeftMinusRight.Value;
        if (double.IsNaN(lean))
            return "Left or right is silent.";
        var whole = Math.Abs(lean) < LeansDecibels ? "On the whole left and right weigh alike" : Invariant($"It leans to the {(lean > 0 ? "left" : "right")} by {Math.Abs(lean):0.0} dB");
        return width.FurthestLean is { } most && Math.Abs(most.Value) > Math.Max(LeansDecibels, Math.Abs(lean) + 1)
            ? Invariant($"{whole}; furthest to the {(most.Value > 0 ? "left" : "right")}, by {Math.Abs(most.Value):0.0} dB, from {most.Range.From.At(rate).TotalSeconds:0.0} s on.")
            : whole + ".";
    }

    private static string Mono(WidthMeasures width)
    {
        var worst = width.MonoLoss.MaxBy(b => b.LossDecibels);
        return worst.LossDecibels < LosesDecibels
            ? Invariant($"In mono no third octave loses more than {worst.LossDecibels:0.0} dB.")
            : Invariant($"In mono the third octave at {new Hertz(Math.Round(worst.Hertz))} loses most, {worst.LossDecibels:0.0} dB.");
    }
}
