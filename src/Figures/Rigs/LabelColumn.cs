namespace Athwart.Figures.Rigs;

/// <summary>Moves labels of one column apart so that none lies on another, keeping their order.</summary>
internal static class LabelColumn
{
    /// <summary>The height of each label's base line, in the order given, at least <paramref name="step"/> apart and above <paramref name="bottom"/>.</summary>
    public static double[] Spread(IReadOnlyList<double> wanted, double step, double top, double bottom)
    {
        var order = Enumerable.Range(0, wanted.Count).OrderBy(i => wanted[i]).ToArray();
        var places = new double[wanted.Count];
        var next = top;
        foreach (var i in order)
            next = (places[i] = Math.Max(wanted[i], next)) + step;
        // What ran out at the bottom is pushed up again.
        var last = bottom;
        foreach (var i in order.Reverse())
            last = (places[i] = Math.Min(places[i], last)) - step;
        return places;
    }
}
