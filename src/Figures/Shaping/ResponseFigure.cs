using Athwart.Figures.Rigs;

namespace Athwart.Figures.Shaping;

/// <summary>What a step does to mid and side over frequency: two curves of gain in decibels.</summary>
public static class ResponseFigure
{
    private const double Width = 760;
    private const double Left = 62;
    private const double Right = 730;
    private const double Top = 40;
    private const double Bottom = 296;
    private const double LowestHertz = 20;
    private const double HighestHertz = 80_000;
    private const double LowestShown = -60;

    /// <summary>Draws the picture from 20 Hz up.</summary>
    /// <param name="label">Title and description.</param>
    /// <param name="hertz">Frequencies, ascending.</param>
    /// <param name="mid">Gain of the mid at each in decibels; −∞ for nothing left.</param>
    /// <param name="side">Gain of the side at each.</param>
    public static string Draw(FigureLabel label, IReadOnlyList<double> hertz, IReadOnlyList<double> mid, IReadOnlyList<double> side)
    {
        ArgumentNullException.ThrowIfNull(hertz);
        ArgumentNullException.ThrowIfNull(mid);
        ArgumentNullException.ThrowIfNull(side);
        var canvas = new SvgCanvas(Width, 362, label);
        var highest = hertz.Count == 0 ? 20_000 : Math.Clamp(hertz[^1], 1000, HighestHertz);
        var scale = Scale.Around([.. mid.Concat(side).Where(double.IsFinite).Select(g => Math.Clamp(g, LowestShown, 60)), -6, 6], null, 1);
        Grid(canvas, scale, highest);
        Curve(canvas, "curve mid", hertz, mid, scale, highest);
        Curve(canvas, "curve side", hertz, side, scale, highest);
        Legend.Draw(canvas, Left, 348, Width, [("curve mid", "mid"), ("curve side", "side")]);
        return canvas.Close();
    }

    private static void Grid(SvgCanvas canvas, Scale scale, double highest)
    {
        foreach (var hertz in (double[])[20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000])
        {
            if (hertz > highest)
                continue;
            canvas.Line("grid fine", X(hertz, highest), Top, X(hertz, highest), Bottom);
            canvas.Text("tick", X(hertz, highest), Bottom + 18, "middle", hertz < 1000 ? FormattableString.Invariant($"{hertz:0}") : FormattableString.Invariant($"{hertz / 1000:0}k"));
        }

        foreach (var gain in scale.Ticks)
        {
            canvas.Line(Math.Abs(gain) < 1e-9 ? "axis" : "grid fine", Left, Y(gain, scale), Right, Y(gain, scale));
            canvas.Text("tick", Left - 8, Y(gain, scale) + 4, "end", FormattableString.Invariant($"{gain:+0.#;−0.#;0}"));
        }

        canvas.Text("caption", Left, 18, "start", "Gain in dB");
        canvas.Text("tick", (Left + Right) / 2, Bottom + 34, "middle", "frequency in Hz");
    }

    private static void Curve(SvgCanvas canvas, string @class, IReadOnlyList<double> hertz, IReadOnlyList<double> gains, Scale scale, double highest)
    {
        var curve = new Curves();
        for (var n = 0; n < Math.Min(hertz.Count, gains.Count); n++)
        {
            if (hertz[n] >= LowestHertz && hertz[n] <= highest && gains[n] >= scale.Low && gains[n] <= scale.High)
                curve.To(X(hertz[n], highest), Y(gains[n], scale));
            else
                curve.Break();
        }

        curve.DrawOn(canvas, @class);
    }

    private static double X(double hertz, double highest) => Left + (Math.Log(hertz / LowestHertz) / Math.Log(highest / LowestHertz) * (Right - Left));

    private static double Y(double gain, Scale scale) => Bottom - (scale.Share(gain) * (Bottom - Top));
}
