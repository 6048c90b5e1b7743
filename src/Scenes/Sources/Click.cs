using Athwart.Scenes.Numbers;
using Athwart.Signals.FixedMath;

namespace Athwart.Scenes.Sources;

/// <summary>A short band-limited pulse, as of a clicker; symmetric about its time, peak 1.</summary>
/// <param name="Times">The middles, seconds of the source's time.</param>
/// <param name="LowHertz">Nothing below about this; 0 to keep all.</param>
/// <param name="HighHertz">Nothing above about this; at most 0.42 of the rate.</param>
public sealed record Click(IReadOnlyList<double> Times, double LowHertz = 300, double HighHertz = 12000) : SourceSignal
{
    private const double LobesEachSide = 8;

    /// <inheritdoc/>
    public override IReadOnlyList<double> Onsets => Times;

    /// <inheritdoc/>
    internal override double[] Render(SignalGrid grid, Chance chance)
    {
        var samples = new double[grid.Count];
        var high = Math.Min(HighHertz, 0.9 * grid.Highest);
        foreach (var time in Times)
        {
            Add(samples, grid, time, high, 1);
            if (LowHertz > 0)
                Add(samples, grid, time, LowHertz, -LowHertz / high);
        }

        Levels.Scale(samples, 1 / (1 - (LowHertz / high)));
        return samples;
    }

    private static void Add(double[] samples, SignalGrid grid, double time, double hertz, double weight)
    {
        var half = LobesEachSide / (2 * hertz);
        var first = Math.Max(0, (int)Math.Ceiling((time - half - grid.FirstSeconds) * grid.Rate));
        var last = Math.Min(grid.Count - 1, (int)Math.Floor((time + half - grid.FirstSeconds) * grid.Rate));
        for (var i = first; i <= last; i++)
        {
            var t = grid.SecondsAt(i) - time;
            samples[i] += weight * FixedTrigonometry.Sinc(2 * hertz * t) * KaiserWindow.At(t / half, 8);
        }
    }
}
