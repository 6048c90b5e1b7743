using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Sources;

/// <summary>One burst of noise.</summary>
/// <param name="Time">When it starts, seconds.</param>
/// <param name="Peak">Its peak.</param>
/// <param name="Rise">Seconds to the top.</param>
/// <param name="Decay">Seconds to fall to 1/e.</param>
/// <param name="Low">Lowest frequency in hertz.</param>
/// <param name="High">Highest frequency in hertz.</param>
/// <param name="Body">A resonance in hertz.</param>
internal readonly record struct Strike(double Time, double Peak, double Rise, double Decay, double Low, double High, double Body);

/// <summary>Bursts of noise for claps and footsteps.</summary>
internal static class Strikes
{
    public static void Add(double[] samples, SignalGrid grid, Chance chance, Strike strike)
    {
        var first = (int)Math.Ceiling((strike.Time - grid.FirstSeconds) * grid.Rate);
        var count = Math.Min((int)(((10 * strike.Decay) + strike.Rise) * grid.Rate), grid.Count - first);
        if (first < 0 || count <= 0)
            return;
        var burst = Burst(grid.Rate, count, chance, strike, Math.Min(strike.High, 0.8 * grid.Highest));
        for (var i = 0; i < count; i++)
            samples[first + i] += burst[i] * strike.Peak;
    }

    private static double[] Burst(double rate, int count, Chance chance, Strike strike, double high)
    {
        var body = new FilterChain(FilterDesigns.Band(strike.Body, rate, 1.5));
        var shape = new FilterChain([.. FilterDesigns.Low4(high, rate), FilterDesigns.High2(strike.Low, rate)]);
        var burst = new double[count];
        for (var i = 0; i < count; i++)
        {
            var t = i / rate;
            var noise = chance.Normal() * Math.Min(1, t / strike.Rise) * Math.Exp(-t / strike.Decay);
            burst[i] = shape.Next((0.4 * noise) + body.Next(noise));
        }

        return SignalGrid.ToUnitPeak(burst);
    }
}
