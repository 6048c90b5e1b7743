using System.Globalization;

namespace Athwart.Figures;

/// <summary>Seconds to places across a figure; all figures over time share it, so that they line up one below the other.</summary>
/// <param name="Seconds">The length of the axis.</param>
/// <param name="First">What its first moment is called: where a stretch begins in its take. Places count from there.</param>
internal readonly record struct TimeScale(double Seconds, double First = 0)
{
    public const double Width = 880;
    public const double Left = 66;
    public const double Right = Width - 20;
    private const double LabelHeight = 16;

    public static double Span => Right - Left;

    public double X(double seconds) => Left + (Seconds > 0 ? Math.Clamp(seconds / Seconds, 0, 1) * Span : 0);

    /// <summary>The ticks: 1, 2 or 5 times a power of ten, or minutes, so that at most nine are shown.</summary>
    public IReadOnlyList<double> Ticks()
    {
        var step = Step();
        var ticks = new List<double>();
        for (var i = step > 0 ? (int)Math.Ceiling((First / step) - 1e-9) : 0; step > 0 && (i * step) - First <= Seconds * (1 + 1e-9); i++)
            ticks.Add((i * step) - First);
        return ticks;
    }

    /// <summary>'0 s', '0.25 s', '1:30 min', '2:00 h'.</summary>
    public string Label(double seconds)
    {
        var step = Step();
        seconds += First;
        if (step >= 3600 || Seconds >= 7200)
            return string.Create(CultureInfo.InvariantCulture, $"{(int)(seconds / 3600)}:{(int)Math.Round(seconds / 60) % 60:00} h");
        if (Seconds > 120)
            return string.Create(CultureInfo.InvariantCulture, $"{(int)(seconds / 60)}:{(int)Math.Round(seconds) % 60:00} min");
        var decimals = Math.Clamp((int)Math.Ceiling(-Math.Log10(step) - 1e-9), 0, 6);
        return Markup.Readable(seconds, decimals) + " s";
    }

    /// <summary>Ticks below the plot that ends at <paramref name="bottom"/>, with grid lines up to each of the tops.</summary>
    public void Draw(SvgCanvas canvas, double bottom)
    {
        canvas.Line("axis", Left, bottom, Right, bottom);
        foreach (var tick in Ticks())
        {
            var x = X(tick);
            canvas.Line("axis", x, bottom, x, bottom + 4);
            var label = Label(tick);
            // No font is known here; 3.7 a letter is half of a wide one.
            var late = x + (3.7 * label.Length) > Width;
            canvas.Text("tick", late ? Width : x, bottom + LabelHeight + 2, late ? "end" : "middle", label);
        }
    }

    public void Grid(SvgCanvas canvas, double top, double bottom)
    {
        foreach (var tick in Ticks())
            canvas.Line("grid fine", X(tick), top, X(tick), bottom);
    }

    private double Step()
    {
        if (!(Seconds > 0))
            return 0;
        var least = Seconds / 9;
        foreach (var step in (ReadOnlySpan<double>)[15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 14400])
        {
            if (Seconds > 120 && step >= least)
                return step;
        }

        var power = Math.Pow(10, Math.Floor(Math.Log10(least)));
        var digit = least / power;
        return power * (digit <= 1 ? 1 : digit <= 2 ? 2 : digit <= 5 ? 5 : 10);
    }
}
