using Athwart.Signals.Filters;

namespace Athwart.Scenes.Numbers;

/// <summary>Second-order sections one after the other, in double.</summary>
internal sealed class FilterChain(params BiquadCoefficients[] sections)
{
    private readonly (double First, double Second)[] _states = new (double, double)[sections.Length];

    /// <summary>Filters one sample (transposed direct form II).</summary>
    public double Next(double x)
    {
        for (var i = 0; i < sections.Length; i++)
        {
            ref readonly var s = ref sections[i];
            ref var state = ref _states[i];
            var y = (s.B0 * x) + state.First;
            state.First = (s.B1 * x) - (s.A1 * y) + state.Second;
            state.Second = (s.B2 * x) - (s.A2 * y);
            x = y;
        }

        return x;
    }

    /// <summary>Filters in place, going on where the last block ended.</summary>
    public void Run(Span<double> samples)
    {
        foreach (ref var sample in samples)
            sample = Next(sample);
    }

    /// <summary>The amplitude ratio at a frequency.</summary>
    public double AmplitudeRatioAt(double hertz, double rate) =>
        sections.Aggregate(1.0, (product, section) => product * section.AmplitudeRatioAt(hertz, rate));

    /// <summary>Power out over power in for white noise: the mean of the squared response from 0 to half the rate.</summary>
    public double WhitePowerGain(double rate)
    {
        const int Steps = 4000;
        var (low, high) = (1e-3, rate / 2);
        var step = Math.Log(high / low) / Steps;
        double sum = 0;
        for (var i = 0; i <= Steps; i++)
        {
            var hertz = low * Math.Exp(i * step);
            var amplitude = AmplitudeRatioAt(hertz, rate);
            sum += amplitude * amplitude * hertz * (i is 0 or Steps ? 0.5 : 1);
        }

        return sum * step / high;
    }
}
