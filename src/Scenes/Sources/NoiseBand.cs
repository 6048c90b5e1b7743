using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Sources;

/// <summary>Steady normal noise in a band, edges of fourth order, root mean square 1.</summary>
/// <param name="LowHertz">Lower edge.</param>
/// <param name="HighHertz">Upper edge; at most 0.42 of the rate.</param>
/// <param name="PowerExponent">The power falls as f^−n inside the band; 0 is white, 1 pink.</param>
public sealed record NoiseBand(double LowHertz = 100, double HighHertz = 10000, double PowerExponent = 0) : SourceSignal
{
    /// <inheritdoc/>
    internal override double[] Render(SignalGrid grid, Chance chance) =>
        SignalGrid.ToUnitRms(new ShapedNoise(chance, Chain(grid.Rate, grid.Highest), grid.Rate, 1).Take(grid.Count));

    private FilterChain Chain(double rate, double highest) => new(
    [
        .. PowerExponent > 0 ? SlopeLadder.Sections(PowerExponent, LowHertz, rate) : [],
        .. FilterDesigns.High(LowHertz, rate, 4),
        .. FilterDesigns.Low4(Math.Min(HighHertz, highest), rate),
    ]);
}
