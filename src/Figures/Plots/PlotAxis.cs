using Athwart.Figures.Rigs;

namespace Athwart.Figures.Plots;

/// <summary>One axis of a <see cref="PlotFigure"/>.</summary>
/// <param name="Caption">What it shows, with its unit.</param>
/// <param name="Low">Its lower end.</param>
/// <param name="High">Its upper end, above the lower.</param>
/// <param name="IsLogarithmic">Whether equal ratios are equally far apart; both ends are above 0 then.</param>
/// <param name="Ticks">Where ticks stand, with their labels.</param>
public sealed record PlotAxis(string Caption, double Low, double High, bool IsLogarithmic, IReadOnlyList<(double At, string Label)> Ticks)
{
    private static readonly double[] Frequencies = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000, 100_000, 200_000];

    /// <summary>An axis with round ticks around some values; what is not finite is passed over.</summary>
    /// <param name="caption">What it shows, with its unit.</param>
    /// <param name="values">What must find room.</param>
    /// <param name="finest">The smallest step from tick to tick.</param>
    /// <param name="decimals">Digits after the point of the labels, at least.</param>
    /// <param name="plus">Whether labels above 0 carry a plus.</param>
    public static PlotAxis Around(string caption, IEnumerable<double> values, double finest, int decimals = 0, bool plus = false)
    {
        var finite = values.Where(double.IsFinite).DefaultIfEmpty(0).ToList();
        var scale = Scale.Around(finite, null, finest);
        var digits = Math.Max(decimals, Math.Clamp((int)Math.Ceiling(-Math.Log10(scale.Step) - 1e-9), 0, 6));
        // A single value has an axis all the same.
        var high = scale.High > scale.Low ? scale.High : scale.Low + scale.Step;
        return new(caption, scale.Low, high, false, [.. (scale with { High = high }).Ticks.Select(t => (t, Markup.Readable(t, digits, plus)))]);
    }

    /// <summary>From one end exactly to the other, with round ticks between.</summary>
    /// <param name="caption">What it shows, with its unit.</param>
    /// <param name="low">Its lower end.</param>
    /// <param name="high">Its upper end, above the lower.</param>
    /// <param name="plus">Whether labels above 0 carry a plus.</param>
    public static PlotAxis Between(string caption, double low, double high, bool plus = false)
    {
        var step = Scale.Around([low, high], null, 0).Step;
        var digits = Math.Clamp((int)Math.Ceiling(-Math.Log10(step) - 1e-9), 0, 6);
        var first = Math.Ceiling((low / step) - 1e-9);
        var count = (int)Math.Floor((high / step) + 1e-9 - first) + 1;
        return new(caption, low, high, false, [.. Enumerable.Range(0, Math.Max(0, count)).Select(i => (first + i) * step).Select(t => (t, Markup.Readable(t, digits, plus)))]);
    }

    /// <summary>Frequency, equal ratios equally far apart.</summary>
    /// <param name="low">The lower end in hertz, above 0.</param>
    /// <param name="high">The upper end in hertz, above the lower.</param>
    public static PlotAxis Frequency(double low, double high) =>
        new("frequency", low, high, true, [.. Frequencies.Where(f => f >= low * 0.999 && f <= high * 1.001).Select(f => (f, new Quantities.Hertz(f).ToString()))]);

    /// <summary>Where a value lies, 0 at the lower end to 1 at the upper; beyond them it lies outside.</summary>
    internal double Share(double value) => IsLogarithmic ? Math.Log(value / Low) / Math.Log(High / Low) : (value - Low) / (High - Low);
}
