namespace Athwart.Metering.LineUp;

/// <summary>Finds where sounds begin: a steep rise, in both channels together, over what was there before.</summary>
/// <remarks>
/// Energy in steps of half a millisecond above 400 Hz, each channel over its own quiet level so that a noisy microphone does not
/// hide the other. The thresholds are common practice, no source.
/// </remarks>
internal static class OnsetFinder
{
    private const double StepMilliseconds = 0.5;
    private const double AboveQuiet = 30;
    private const double AboveBefore = 8;
    private const double AboveRecent = 0.1;
    private const double BeforeMilliseconds = 15;
    private const double RecentMilliseconds = 250;
    private const double ApartMilliseconds = 100;
    private const double QuietShare = 0.2;
    private const double FootOfRise = 0.04;
    private const double RiseMilliseconds = 3;

    /// <summary>The first frame of each sound, in order.</summary>
    public static List<int> Find(SoundPair pair)
    {
        var step = Math.Max(1, pair.Frames(StepMilliseconds));
        var energy = Energy(pair, step);
        var found = new List<int>();
        var (before, recent, apart) = ((int)(BeforeMilliseconds / StepMilliseconds), (int)(RecentMilliseconds / StepMilliseconds), pair.Frames(ApartMilliseconds));
        for (var k = 0; k < energy.Length; k++)
        {
            if (energy[k] < AboveQuiet || !IsRise(energy, k, before, recent))
                continue;
            var foot = Foot(pair, k * step);
            if (found.Count == 0 || foot - found[^1] > apart)
                found.Add(foot);
        }

        return found;
    }

    private static bool IsRise(double[] energy, int k, int before, int recent)
    {
        for (var j = Math.Max(0, k - recent); j < k - 1; j++)
        {
            if (energy[k] < energy[j] * (j >= k - before ? AboveBefore : AboveRecent))
                return false;
        }

        return true;
    }

    /// <summary>Both channels' energy a step, each over its own quiet level: about 2 where nothing is heard.</summary>
    private static double[] Energy(SoundPair pair, int step)
    {
        var total = new double[pair.Length / step];
        foreach (var channel in pair.Cut)
        {
            var energy = new double[total.Length];
            for (var k = 0; k < energy.Length; k++)
            {
                foreach (var x in channel.AsSpan(k * step, step))
                    energy[k] += (double)x * x;
            }

            var quiet = Quiet(energy);
            for (var k = 0; k < energy.Length; k++)
                total[k] += quiet > 0 ? energy[k] / quiet : 0;
        }

        return total;
    }

    // Digital silence between the sounds would make anything loud: 120 dB below the loudest is quiet enough.
    private static double Quiet(double[] energy)
    {
        if (energy.Length == 0)
            return 0;
        var sorted = energy.Order().ToArray();
        return Math.Max(sorted[(int)(QuietShare * (sorted.Length - 1))], sorted[^1] * 1e-12);
    }

    /// <summary>Goes from the loud step to where the rise starts, to the frame.</summary>
    private static int Foot(SoundPair pair, int at)
    {
        var rise = pair.Frames(RiseMilliseconds);
        var (from, to) = (Math.Max(0, at - rise), Math.Min(pair.Length, at + rise));
        var smooth = Math.Max(1, pair.Frames(0.1));
        var loudest = 0.0;
        for (var i = from; i < to; i++)
            loudest = Math.Max(loudest, Power(pair, i, smooth));
        for (var i = from; i < to; i++)
        {
            if (Power(pair, i, smooth) > FootOfRise * loudest)
                return i;
        }

        return at;
    }

    private static double Power(SoundPair pair, int at, int count)
    {
        var sum = 0.0;
        for (var i = at; i < Math.Min(pair.Length, at + count); i++)
            sum += ((double)pair.Cut[0][i] * pair.Cut[0][i]) + ((double)pair.Cut[1][i] * pair.Cut[1][i]);
        return sum;
    }
}
