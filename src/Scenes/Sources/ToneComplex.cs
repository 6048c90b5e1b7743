using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Sources;

/// <summary>Steady sines with phases by chance, root mean square 1 over whole periods.</summary>
/// <param name="Frequencies">Hertz; those above 0.42 of the rate are left out.</param>
/// <param name="LevelsDecibels">Level of each against the others; all equal when empty.</param>
public sealed record ToneComplex(IReadOnlyList<double> Frequencies, IReadOnlyList<double>? LevelsDecibels = null) : SourceSignal
{
    /// <inheritdoc/>
    internal override double[] Render(SignalGrid grid, Chance chance)
    {
        var samples = new double[grid.Count];
        double power = 0;
        for (var k = 0; k < Frequencies.Count; k++)
        {
            var phase = chance.Fork("phase", k).Unit();
            if (Frequencies[k] > grid.Highest)
                continue;
            var amplitude = Levels.Ratio(LevelsDecibels is { } levels && k < levels.Count ? levels[k] : 0);
            power += amplitude * amplitude / 2;
            for (var i = 0; i < grid.Count; i++)
                samples[i] += amplitude * Math.Sin(2 * Math.PI * ((Frequencies[k] * grid.SecondsAt(i)) + phase));
        }

        if (power > 0)
            Levels.Scale(samples, 1 / Math.Sqrt(power));
        return samples;
    }
}
