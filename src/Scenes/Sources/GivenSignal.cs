using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Sources;

/// <summary>A sound given as a function of time, taken as it is: 1 stands for the source's level (as a peak or constant value).</summary>
/// <param name="PressureAt">Seconds of the source's time to pressure; must be band-limited to 0.42 of the rate.</param>
public sealed record GivenSignal(Func<double, double> PressureAt) : SourceSignal
{
    /// <inheritdoc/>
    internal override double[] Render(SignalGrid grid, Chance chance)
    {
        var samples = new double[grid.Count];
        for (var i = 0; i < samples.Length; i++)
            samples[i] = PressureAt(grid.SecondsAt(i));
        return samples;
    }
}
