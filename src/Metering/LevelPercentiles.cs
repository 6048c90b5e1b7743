using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>Levels of 400 ms windows: the quiet ones are the noise floor, the largest the loudest.</summary>
internal static class LevelPercentiles
{
    internal const int WindowHops = 4;

    /// <summary>The level that 95 % of the windows exceed, and the loudest; windows of pure zeros are left out of the first.</summary>
    /// <param name="hopSquares">Sum of squares of each 100 ms.</param>
    /// <param name="grid">The 10 ms grid the hops lie on.</param>
    /// <param name="hopTotals">Sum of each 100 ms: the mean of a window is taken off it, with any offset; empty when there is none.</param>
    public static (DecibelsFullScale Floor, DecibelsFullScale Loudest) Measure(ReadOnlySpan<double> hopSquares, ReadOnlySpan<double> hopTotals, TenMillisecondGrid grid)
    {
        var windows = new List<double>(hopSquares.Length);
        for (var i = 0; i + WindowHops <= hopSquares.Length; i++)
        {
            var sum = hopSquares[i] + hopSquares[i + 1] + hopSquares[i + 2] + hopSquares[i + 3];
            var frames = grid.FramesIn((long)i * TenMillisecondGrid.HopSteps, WindowHops * TenMillisecondGrid.HopSteps);
            var mean = hopTotals.IsEmpty ? 0 : (hopTotals[i] + hopTotals[i + 1] + hopTotals[i + 2] + hopTotals[i + 3]) / frames;
            if (sum > 0)
                windows.Add(Math.Max(0, (sum / frames) - (mean * mean)));
        }

        if (windows.Count == 0)
            return (DecibelsFullScale.Silence, DecibelsFullScale.Silence);
        windows.Sort();
        return (DecibelsFullScale.FromMeanSquare(windows[(int)((windows.Count - 1) * 0.05)]), DecibelsFullScale.FromMeanSquare(windows[^1]));
    }
}
