namespace Athwart.Signals.Repairs;

/// <summary>How a sound goes on from what it just did: x[n] = −Σ a[k]·x[n − k] + something new, fitted to stretches on both sides of a gap.</summary>
/// <remarks>J. P. Burg's recursion over several stretches at once (from memory): the sums of forward and backward errors of all are made least, so pure tones keep their pitch.</remarks>
internal static class AutoregressiveModel
{
    // A perfect tone leaves nothing to tell a good model from a bad one by; hiss of this size, far below any recording's own, decides. It
    // goes into the fit alone.
    private const double Hiss = 1e-5;

    /// <summary>The weights a[0] = 1 to a[order]; fewer where the stretches have nothing left to tell.</summary>
    /// <param name="first">A stretch of sound.</param>
    /// <param name="second">Another one; either may be empty.</param>
    /// <param name="order">How far back it looks; below the length of the longer stretch.</param>
    public static double[] Fit(ReadOnlySpan<double> first, ReadOnlySpan<double> second, int order)
    {
        var start = Energy(first) + Energy(second);
        var hiss = Hiss * Math.Sqrt(start / Math.Max(1, first.Length + second.Length));
        double[] f1 = WithHiss(first, hiss), f2 = WithHiss(second, hiss);
        double[] b1 = [.. f1], b2 = [.. f2];
        var a = new double[order + 1];
        a[0] = 1;
        for (var m = 1; m <= order; m++)
        {
            var (cross, power) = (0.0, 0.0);
            Sums(f1, b1, m, ref cross, ref power);
            Sums(f2, b2, m, ref cross, ref power);
            // Nothing left beyond rounding: the sound is told completely.
            if (!(power > start * 1e-20))
                break;
            var reflection = -2 * cross / power;
            Step(f1, b1, m, reflection);
            Step(f2, b2, m, reflection);
            for (var (i, j) = (1, m - 1); i <= j; i++, j--)
                (a[i], a[j]) = (a[i] + (reflection * a[j]), a[j] + (reflection * a[i]));
            a[m] = reflection;
        }

        return a;
    }

    // Multiplier and increment of Knuth's linear congruential generator (MMIX), from memory; any other would do.
    private static double[] WithHiss(ReadOnlySpan<double> samples, double size)
    {
        var noisy = samples.ToArray();
        var state = 1UL;
        foreach (ref var sample in noisy.AsSpan())
        {
            state = unchecked((state * 6364136223846793005UL) + 1442695040888963407UL);
            sample += size * ((long)state / 9223372036854775808.0);
        }

        return noisy;
    }

    private static double Energy(ReadOnlySpan<double> samples)
    {
        var sum = 0.0;
        foreach (var sample in samples)
            sum += sample * sample;
        return sum;
    }

    // f[n] goes with b[n − 1]; b is kept moved, so that both lie at n. Four sums in turn, added in one order.
    private static void Sums(double[] f, double[] b, int m, ref double cross, ref double power)
    {
        double c0 = 0, c1 = 0, p0 = 0, p1 = 0;
        var n = m;
        for (; n + 1 < f.Length; n += 2)
        {
            var (u, v, w, x) = (f[n], b[n - m], f[n + 1], b[n + 1 - m]);
            c0 += u * v;
            p0 += (u * u) + (v * v);
            c1 += w * x;
            p1 += (w * w) + (x * x);
        }

        if (n < f.Length)
        {
            c0 += f[n] * b[n - m];
            p0 += (f[n] * f[n]) + (b[n - m] * b[n - m]);
        }

        cross += c0 + c1;
        power += p0 + p1;
    }

    private static void Step(double[] f, double[] b, int m, double reflection)
    {
        for (var n = m; n < f.Length; n++)
        {
            var (u, v) = (f[n], b[n - m]);
            f[n] = u + (reflection * v);
            b[n - m] = v + (reflection * u);
        }
    }
}
