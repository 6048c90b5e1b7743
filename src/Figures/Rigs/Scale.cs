namespace Athwart.Figures.Rigs;

/// <summary>An axis with round ticks around some values.</summary>
/// <param name="Low">Its lower end.</param>
/// <param name="High">Its upper end, above the lower.</param>
/// <param name="Step">From tick to tick: 1, 2 or 5 times a power of ten.</param>
internal sealed record Scale(double Low, double High, double Step)
{
    public IEnumerable<double> Ticks => Enumerable.Range(0, (int)Math.Round((High - Low) / Step) + 1).Select(n => Low + (n * Step));

    /// <summary>An axis that has all values inside with a little room; it begins at <paramref name="from"/> if that is given, and no step is smaller than <paramref name="finest"/>.</summary>
    public static Scale Around(IEnumerable<double> values, double? from, double finest)
    {
        var all = values.ToList();
        var (low, high) = (from ?? all.Min(), Math.Max(all.Max(), (from ?? all.Min()) + 1e-9));
        var step = Math.Max(finest, Round((high - low) / 6));
        return new(Math.Floor((low - (from is null ? step / 4 : 0)) / step) * step, Math.Ceiling((high + (step / 4)) / step) * step, step);
    }

    public double Share(double value) => (value - Low) / (High - Low);

    private static double Round(double step)
    {
        var unit = Math.Pow(10, Math.Floor(Math.Log10(step)));
        return (step / unit) switch { <= 1 => unit, <= 2 => 2 * unit, <= 5 => 5 * unit, _ => 10 * unit };
    }
}
