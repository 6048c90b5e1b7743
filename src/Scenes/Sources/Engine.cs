using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Sources;

/// <summary>An engine: harmonics of a speed that wanders a little, and noise that comes with the strokes; root mean square 1.</summary>
/// <param name="FundamentalHertz">Strokes a second.</param>
/// <param name="WanderPart">How far the speed wanders, as a part of it.</param>
/// <param name="NoiseDecibels">Noise against harmonics.</param>
public sealed record Engine(double FundamentalHertz = 28, double WanderPart = 0.02, double NoiseDecibels = -6) : SourceSignal
{
    private const int Harmonics = 60;
    private const double HarmonicSlope = 0.8;

    /// <inheritdoc/>
    internal override double[] Render(SignalGrid grid, Chance chance)
    {
        var phases = Phases(grid, chance.Fork("speed"));
        var harmonics = new double[grid.Count];
        for (var k = 1; k <= Harmonics && k * FundamentalHertz * 1.2 < grid.Highest; k++)
            AddHarmonic(harmonics, phases, k, chance.Fork("harmonic", k));
        SignalGrid.ToUnitRms(harmonics);
        var noise = Strokes(grid, phases, chance.Fork("noise"));
        for (var i = 0; i < harmonics.Length; i++)
            harmonics[i] += Levels.Ratio(NoiseDecibels) * noise[i];
        return SignalGrid.ToUnitRms(harmonics);
    }

    private double[] Phases(SignalGrid grid, Chance chance)
    {
        var wander = new ShapedNoise(chance, new(FilterDesigns.Low2(0.7, grid.Rate)), grid.Rate, WanderPart);
        var (phases, phase) = (new double[grid.Count], chance.Unit());
        for (var i = 0; i < phases.Length; i++)
            phases[i] = phase += FundamentalHertz * Math.Max(0.2, 1 + wander.Next()) / grid.Rate;
        return phases;
    }

    private static void AddHarmonic(double[] samples, double[] phases, int k, Chance chance)
    {
        var amplitude = Math.Pow(k, -HarmonicSlope) * Levels.Ratio(chance.Between(-5, 5));
        var offset = chance.Unit();
        for (var i = 0; i < samples.Length; i++)
            samples[i] += amplitude * Math.Sin(2 * Math.PI * ((k * phases[i]) + offset));
    }

    private static double[] Strokes(SignalGrid grid, double[] phases, Chance chance)
    {
        var chain = new FilterChain([FilterDesigns.High2(200, grid.Rate), .. FilterDesigns.Low4(Math.Min(5000, grid.Highest), grid.Rate)]);
        var noise = new ShapedNoise(chance, chain, grid.Rate, 1).Take(grid.Count);
        for (var i = 0; i < noise.Length; i++)
            noise[i] *= 0.4 + (0.6 * Math.Pow((1 + Math.Cos(2 * Math.PI * phases[i])) / 2, 4));
        return SignalGrid.ToUnitRms(noise);
    }
}
