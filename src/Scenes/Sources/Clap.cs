using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Sources;

/// <summary>Hand claps: bursts of noise that rise in half a millisecond and die away in some; the strongest has peak 1.</summary>
/// <param name="Times">When each starts, seconds of the source's time.</param>
public sealed record Clap(IReadOnlyList<double> Times) : SourceSignal
{
    /// <inheritdoc/>
    public override IReadOnlyList<double> Onsets => Times;

    /// <inheritdoc/>
    internal override double[] Render(SignalGrid grid, Chance chance)
    {
        var samples = new double[grid.Count];
        for (var i = 0; i < Times.Count; i++)
            Strikes.Add(samples, grid, chance.Fork("clap", i), new(Times[i], chance.Between(0.8, 1), 0.0005, chance.Between(0.004, 0.009), 400, 9000, 1600));
        return SignalGrid.ToUnitPeak(samples);
    }
}
