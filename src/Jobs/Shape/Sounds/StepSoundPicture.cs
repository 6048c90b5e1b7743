using Athwart.Figures;
using Athwart.Figures.Plots;
using Athwart.Figures.Shaping;

namespace Athwart.Jobs.Shape.Sounds;

/// <summary>A stretch of mid and side, full scale ±1.</summary>
internal sealed record PairSamples(int Rate, double[] Mid, double[] Side);

/// <summary>Draws what a step made of its sound.</summary>
internal static class StepSoundPicture
{
    private const int Columns = 160;
    private const double Quietest = -90;

    /// <summary>An svg element.</summary>
    public static string Draw(StepSound sound, PairSamples before, PairSamples after)
    {
        var label = new FigureLabel("step-" + sound.Name, sound.Name, sound.Says);
        return sound.View switch
        {
            StepView.Response => StepPictures.Draw(sound.Step, new(before.Rate, 1), "step-" + sound.Name, sound.Says),
            StepView.SideGain => SideGainFigure.Draw(label, (double)before.Side.Length / before.Rate, Gains(before.Side, after.Side)),
            StepView.MidLevel => Levels(label, "mid", before.Rate, before.Mid, after.Mid),
            StepView.SideLevel => Levels(label, "side", before.Rate, before.Side, after.Side),
            _ => Lean(label, before, after),
        };
    }

    private static double[] Gains(double[] before, double[] after) =>
        [.. Powers(before, before.Length).Zip(Powers(after, before.Length), (b, a) => b > 0 ? Math.Sqrt(a / b) : 1)];

    private static string Levels(FigureLabel label, string role, int rate, double[] before, double[] after)
    {
        var length = Math.Max(before.Length, after.Length);
        List<(double X, double Y)> Line(double[] samples) => Points(samples, length, rate);
        var (was, now) = (Line(before), Line(after));
        var plot = new Plot($"Level of the {role} in dBFS", PlotAxis.Between("seconds", 0, (double)length / rate), PlotAxis.Around("", was.Concat(now).Select(p => p.Y), 5))
        {
            Curves = [new("before", "plain", was), new("after", role, now)],
        };
        return PlotFigure.Draw(label, plot);
    }

    private static string Lean(FigureLabel label, PairSamples before, PairSamples after)
    {
        static List<(double X, double Y)> Line(PairSamples pair)
        {
            var left = Points([.. pair.Mid.Zip(pair.Side, (m, s) => m + s)], pair.Mid.Length, pair.Rate);
            var right = Points([.. pair.Mid.Zip(pair.Side, (m, s) => m - s)], pair.Mid.Length, pair.Rate);
            return [.. left.Zip(right, (l, r) => (l.X, l.Y - r.Y))];
        }

        var (was, now) = (Line(before), Line(after));
        var plot = new Plot("Left over right in dB", PlotAxis.Between("seconds", 0, (double)before.Mid.Length / before.Rate), PlotAxis.Around("", was.Concat(now).Select(p => p.Y), 2, plus: true))
        {
            Curves = [new("before", "plain", was), new("after", "left", now)],
        };
        return PlotFigure.Draw(label, plot);
    }

    private static List<(double X, double Y)> Points(double[] samples, int length, int rate) =>
        [.. Powers(samples, length).Select((p, i) => ((i + 0.5) * length / Columns / rate, Math.Max(Quietest, 10 * Math.Log10(p + 1e-20))))];

    // Mean squares of as many columns; silence after the end.
    private static double[] Powers(double[] samples, int length)
    {
        var powers = new double[Columns];
        for (var c = 0; c < Columns; c++)
        {
            var (from, to) = ((int)((long)c * length / Columns), (int)((long)(c + 1) * length / Columns));
            for (var n = from; n < Math.Min(to, samples.Length); n++)
                powers[c] += samples[n] * samples[n] / (to - from);
        }

        return powers;
    }
}
