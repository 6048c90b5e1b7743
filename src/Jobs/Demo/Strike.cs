namespace Athwart.Jobs.Demo;

/// <summary>One way a struck thing rings.</summary>
/// <param name="Hertz">Pitch.</param>
/// <param name="Seconds">Time constant of the decay: the level falls by 8.7 dB in it.</param>
/// <param name="Amplitude">Amplitude at the strike.</param>
internal readonly record struct Mode(double Hertz, double Seconds, double Amplitude);

/// <summary>Struck, dropped and scraped things.</summary>
internal static class Strike
{
    /// <summary>Adds dying sines, each by the two-term recurrence of a rotating pointer.</summary>
    /// <param name="target">Where to add.</param>
    /// <param name="first">Frame of the strike, inside the target.</param>
    /// <param name="rate">Frames per second.</param>
    /// <param name="gain">Factor on all amplitudes.</param>
    /// <param name="modes">How it rings.</param>
    public static void Ring(Span<double> target, int first, int rate, double gain, ReadOnlySpan<Mode> modes)
    {
        foreach (var mode in modes)
        {
            var r = DemoMath.Decay(mode.Seconds, rate);
            var turns = mode.Hertz / rate;
            var (b1, b2) = (2 * r * DemoMath.Cosine(turns), -r * r);
            var (y2, y1) = (0.0, gain * mode.Amplitude * DemoMath.Sine(turns));
            var to = Math.Min(target.Length, first + (int)(11.5 * mode.Seconds * rate));
            for (var i = first; i < to; i++)
            {
                target[i] += y1;
                (y1, y2) = ((b1 * y1) + (b2 * y2), y1);
            }
        }
    }

    /// <summary>Adds a puff of noise around a pitch that dies away: the contact itself, grit, a splash.</summary>
    public static void Puff(Span<double> target, int first, int rate, double gain, double hertz, double q, double seconds, DemoRandom random)
    {
        var filter = new StateVariableFilter(rate, hertz, q);
        var keep = DemoMath.Decay(seconds, rate);
        var level = gain;
        var to = Math.Min(target.Length, first + (int)(9 * seconds * rate));
        for (var i = first; i < to; i++)
        {
            target[i] += level * filter.Step(random.White());
            level *= keep;
        }
    }
}
