namespace Athwart.Microphones.Air;

/// <summary>Finds the highest frequency at which something is 0 or more: from the top down in steps, then halving.</summary>
internal static class ReachSearch
{
    private const double LowestHertz = 20;
    private const int StepsPerOctave = 24;

    public static double? Highest(Func<double, double> excess)
    {
        var high = AirAbsorption.HighestHertz;
        if (excess(high) >= 0)
            return high;
        for (var step = 1; ; step++)
        {
            var low = AirAbsorption.HighestHertz * Math.Pow(2, -(double)step / StepsPerOctave);
            if (low < LowestHertz)
                return null;
            if (excess(low) >= 0)
                return Halve(excess, low, high);
            high = low;
        }
    }

    private static double Halve(Func<double, double> excess, double low, double high)
    {
        for (var turn = 0; turn < 40; turn++)
        {
            var middle = (low + high) / 2;
            if (excess(middle) >= 0)
                low = middle;
            else
                high = middle;
        }

        return low;
    }
}
