using System.Globalization;
using Athwart.Catalogue;
using Athwart.Quantities;
using Athwart.Signals.Fades;

namespace Athwart.Jobs.Cut;

/// <summary>Measures whether the ends of a cut jump: the step from silence to its first sample against the steps that follow.</summary>
internal static class ClickCheck
{
    /// <summary>Above this a jump may be heard as a click; common practice, no source.</summary>
    public const double HeardDecibels = 12;

    private const double NearSeconds = 0.005;

    // A jump below this, −80 dBFS, is under the noise of a room wherever it is played.
    private const double Nothing = 1e-4;

    /// <summary>The jumps at the start and the end in decibels over the root mean square of the sample-to-sample steps near by, of left or right, whichever is worse; null where nothing jumps.</summary>
    public static (double? Start, double? End) Measure(PairReader reader, long from, long to, long fadeIn, long fadeOut, FadeCurve curve, double sideGain)
    {
        var near = Math.Min(to - from, Math.Max(8, (long)(NearSeconds * reader.SampleRateHertz)));
        var (mid, side) = reader.Read(from, from + near);
        var start = Jump(mid, side, sideGain, n => n < fadeIn ? FadeCurves.Gain(curve, n, fadeIn) : 1);
        (mid, side) = reader.Read(to - near, to);
        Array.Reverse(mid);
        Array.Reverse(side);
        return (start, Jump(mid, side, sideGain, n => n < fadeOut ? FadeCurves.Gain(curve, n, fadeOut) : 1));
    }

    /// <summary>What to know of the ends of a cut, a sentence each; nothing where they are quiet, and for a loop.</summary>
    public static IEnumerable<string> Remarks(Effect cut, PairReader reader, FadeCurve curve)
    {
        if (cut.Loop is not null)
            yield break;
        var gain = (cut.SideLevel ?? Decibels.Unity).AmplitudeRatio;
        var (start, end) = Measure(reader, cut.Range.From.Value, cut.Range.To.Value, cut.FadeIn.Value, cut.FadeOut.Value, curve, gain);
        if (start > HeardDecibels)
            yield return string.Create(CultureInfo.InvariantCulture, $"The start of '{cut.Name}' jumps by {start:0.0} dB over the steps near it and may click; fade in, or move it with --snap zero.");
        if (end > HeardDecibels)
            yield return string.Create(CultureInfo.InvariantCulture, $"The end of '{cut.Name}' jumps by {end:0.0} dB over the steps near it and may click; fade out, or move it with --snap zero.");
    }

    private static double? Jump(double[] mid, double[] side, double sideGain, Func<int, double> fade)
    {
        double? worst = null;
        foreach (var gain in (ReadOnlySpan<double>)[sideGain, -sideGain])
        {
            var (before, first, steps) = (0.0, 0.0, 0.0);
            for (var n = 0; n < mid.Length; n++)
            {
                var sample = (mid[n] + (gain * side[n])) * fade(n);
                if (n == 0)
                    first = Math.Abs(sample);
                else
                    steps += (sample - before) * (sample - before);
                before = sample;
            }

            if (first < Nothing)
                continue;
            var usual = mid.Length > 1 ? Math.Sqrt(steps / (mid.Length - 1)) : 0;
            var jump = 20 * Math.Log10(first / Math.Max(usual, 1e-9));
            worst = Math.Max(worst ?? jump, jump);
        }

        return worst;
    }
}
