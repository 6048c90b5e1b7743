using Athwart.Metering.LineUp;

namespace Athwart.Metering.Tests.LineUp;

/// <summary>
/// A line-up in closed form: band-limited clicks whose waveform is known at every real time, so that any delay is exact; gains of an
/// ideal rig; white noise; one reflection.
/// </summary>
internal sealed record LineUpScene
{
    public int Rate { get; init; } = 48000;

    /// <summary>A of the mid.</summary>
    public double Pattern { get; init; } = 0.5;

    public double GainDecibels { get; init; }

    /// <summary>Frames by which the side is late.</summary>
    public double Delay { get; init; }

    public bool SideInverted { get; init; }

    public bool Swapped { get; init; }

    /// <summary>Degrees by which the side points too far to the left of its place.</summary>
    public double SideTurned { get; init; }

    /// <summary>Metres the side's capsule is ahead and to the left.</summary>
    public (double Forward, double Left) Spacing { get; init; }

    public IReadOnlyList<LineUpDirection> Order { get; init; } = LineUpDirection.UsualOrder;

    public int Claps { get; init; } = 3;

    /// <summary>Decibels of a side sound's mean square over 2 ms above the noise, in each channel; null for no noise.</summary>
    public double? SignalOverNoise { get; init; } = 30;

    /// <summary>Standard deviation of how loud claps are, in dB, and of directions.</summary>
    public double ClapDeviation { get; init; } = 1;

    /// <summary>A reflection from the front: milliseconds later, and its amplitude.</summary>
    public (double Milliseconds, double Amplitude)? Reflection { get; init; }

    public int Seed { get; init; } = 1;

    /// <summary>What comes from where the mid is turned to: 180 for a mid that points backwards.</summary>
    public double MidTurned { get; init; }

    /// <summary>Amplitude of wind in each channel apart: noise with 1/f² power below 200 Hz.</summary>
    public double Wind { get; init; }

    public (float[] First, float[] Second) Make()
    {
        var random = new Random(Seed);
        var (mid, side) = (new double[Frames], new double[Frames]);
        var at = 1.5;
        foreach (var direction in Order)
        {
            var louder = direction.IsSilence ? 0 : ClapDeviation * Normal(random);
            for (var clap = 0; clap < Claps; clap++)
            {
                var amplitude = 0.3 * Math.Pow(10, (louder + (ClapDeviation * Normal(random))) / 20);
                if (!direction.IsSilence)
                    Clap(mid, side, at + (0.0123 * random.NextDouble()), direction.AzimuthDegrees, amplitude, 900 + (400 * random.NextDouble()));
                at += 0.3;
            }

            at += 1;
        }

        return Finish(mid, side, random);
    }

    public static LineUpResult Measure(LineUpScene scene, LineUpSettings? settings = null)
    {
        var (first, second) = scene.Make();
        return LineUpAnalysis.Measure(first, second, scene.Rate, settings ?? new() { MidPattern = scene.Pattern, Order = scene.Order });
    }

    private int Frames => (int)((1.5 + (Order.Count * ((0.3 * Claps) + 1)) + 0.5) * Rate);

    private void Clap(double[] mid, double[] side, double seconds, double azimuth, double amplitude, double hertz)
    {
        Arrive(mid, side, seconds, azimuth, amplitude, hertz);
        if (Reflection is { } r)
            Arrive(mid, side, seconds + (r.Milliseconds / 1000), azimuth > 0 ? azimuth - 70 : azimuth + 70, amplitude * r.Amplitude, hertz);
    }

    private void Arrive(double[] mid, double[] side, double seconds, double azimuth, double amplitude, double hertz)
    {
        var a = azimuth * Math.PI / 180;
        var turned = MidTurned * Math.PI / 180;
        var gain = Math.Pow(10, GainDecibels / 20) * (SideInverted ? -1 : 1);
        var late = (Delay / Rate) - (((Spacing.Forward * Math.Cos(a)) + (Spacing.Left * Math.Sin(a))) / 343.2);
        Add(mid, seconds, amplitude * (Pattern + ((1 - Pattern) * Math.Cos(a - turned))), hertz);
        Add(side, seconds + late, amplitude * gain * Math.Sin(a - (SideTurned * Math.PI / 180)), hertz);
    }

    /// <summary>A clap: three damped waves with a smooth rise, all far below half the rate.</summary>
    private void Add(double[] to, double seconds, double amplitude, double hertz)
    {
        for (var i = (int)(seconds * Rate) - 2; i < Math.Min(to.Length, (seconds + 0.012) * Rate); i++)
        {
            var t = (i / (double)Rate) - seconds;
            if (t > 0)
                to[i] += amplitude * Wave(t, hertz);
        }
    }

    private static double Wave(double t, double hertz)
    {
        var rise = 1 - Math.Exp(-t / 8e-5);
        return rise * rise * rise * ((Math.Exp(-t / 8e-4) * Math.Cos(2 * Math.PI * hertz * t)) + (0.8 * Math.Exp(-t / 3e-4) * Math.Cos(2 * Math.PI * 2.7 * hertz * t)) + (0.6 * Math.Exp(-t / 1.5e-4) * Math.Cos(2 * Math.PI * 6.1 * hertz * t)));
    }

    private (float[] First, float[] Second) Finish(double[] mid, double[] side, Random random)
    {
        // The mean square of the wave over its first 2 ms, at 0.3, is the signal.
        var signal = 0.3 * Math.Sqrt(Enumerable.Range(0, 200).Average(i => Math.Pow(Wave(i * 1e-5, 1100), 2)));
        var noise = SignalOverNoise is { } snr ? signal * Math.Pow(10, -snr / 20) : 0;
        float[] Noisy(double[] channel, double scale)
        {
            var wind = 0.0;
            var pole = Math.Exp(-2 * Math.PI * 20 / Rate);
            return Array.ConvertAll(channel, x =>
            {
                wind = (pole * wind) + (Math.Sqrt(1 - (pole * pole)) * Wind * Normal(random));
                return (float)(x + (scale * noise * Normal(random)) + wind);
            });
        }

        // Gain comes after the microphone's noise.
        var (m, s) = (Noisy(mid, Pattern), Noisy(side, Math.Pow(10, GainDecibels / 20)));
        return Swapped ? (s, m) : (m, s);
    }

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
