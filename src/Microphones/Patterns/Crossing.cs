namespace Athwart.Microphones.Patterns;

/// <summary>The first place at which a function that starts above zero falls to it.</summary>
internal static class Crossing
{
    private const int Halvings = 48;

    /// <summary>Steps from 0 to <paramref name="end"/>, then halves the step in which the sign turns.</summary>
    /// <returns>Null when f stays above zero at every step. A dip narrower than one step may be missed.</returns>
    public static double? First(Func<double, double> f, double end, double step)
    {
        var count = (int)Math.Ceiling(end / step);
        for (var i = 1; i <= count; i++)
        {
            var upper = Math.Min(i * step, end);
            if (f(upper) <= 0)
                return Halve(f, (i - 1) * step, upper);
        }

        return null;
    }

    private static double Halve(Func<double, double> f, double above, double below)
    {
        for (var i = 0; i < Halvings; i++)
        {
            var middle = (above + below) / 2;
            if (f(middle) > 0)
                above = middle;
            else
                below = middle;
        }

        return (above + below) / 2;
    }
}
