using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Sources;

/// <summary>Footsteps: a low heel and a brighter toe after it; the strongest has peak 1.</summary>
/// <param name="Times">When each heel comes down, seconds of the source's time.</param>
public sealed record Footsteps(IReadOnlyList<double> Times) : SourceSignal
{
    /// <inheritdoc/>
    public override IReadOnlyList<double> Onsets => Times;

    /// <inheritdoc/>
    internal override double[] Render(SignalGrid grid, Chance chance)
    {
        var samples = new double[grid.Count];
        for (var i = 0; i < Times.Count; i++)
        {
            var step = chance.Fork("step", i);
            Strikes.Add(samples, grid, step.Fork("heel"), new(Times[i], step.Between(0.7, 1), 0.001, step.Between(0.015, 0.03), 60, 3500, step.Between(120, 240)));
            Strikes.Add(samples, grid, step.Fork("toe"), new(Times[i] + step.Between(0.06, 0.11), step.Between(0.2, 0.4), 0.003, step.Between(0.01, 0.02), 300, 8000, step.Between(900, 2200)));
        }

        return SignalGrid.ToUnitPeak(samples);
    }
}
