using Athwart.Scenes.Numbers;

namespace Athwart.Scenes.Faults;

/// <summary>Adds a sound of a stated root mean square.</summary>
internal static class Added
{
    private const double EdgeSeconds = 0.02;

    /// <summary>1, with raised-cosine edges of 20 ms at both ends unless the sound is there for the whole take.</summary>
    public static double[] Edges(int count, double rate, bool whole)
    {
        var edges = new double[count];
        var length = Math.Min(EdgeSeconds * rate, count / 2.0);
        for (var i = 0; i < count; i++)
        {
            var inside = Math.Min(i + 0.5, count - i - 0.5) / length;
            edges[i] = whole || inside >= 1 ? 1 : 0.5 - (0.5 * Math.Cos(Math.PI * inside));
        }

        return edges;
    }

    /// <summary>Adds the sound times its envelope, scaled so that its root mean square over the stretch is the one asked for.</summary>
    public static void To(Span<double> plane, Func<int, double> sound, double[] envelope, double rms)
    {
        var samples = new double[plane.Length];
        for (var i = 0; i < samples.Length; i++)
            samples[i] = sound(i) * envelope[i];
        var size = Levels.Rms(samples);
        if (size == 0)
            return;
        for (var i = 0; i < samples.Length; i++)
            plane[i] += samples[i] * (rms / size);
    }
}
