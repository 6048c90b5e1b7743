namespace Athwart.Metering.Events;

/// <summary>The floor of each row, second by second: what is there when no event is.</summary>
internal sealed class FloorTrack
{
    // 90 dB below the loudest, or -125 dBFS, is quiet enough: over digital silence anything would be loud.
    private const double BelowLoudest = 90;
    private const double Quietest = -125;

    // The floor rises by itself no faster than this, so that a swell of some seconds stays an event.
    private const double DecibelsPerSecond = 0.5;
    private const double QuietShare = 0.2;
    private const double ActiveDecibels = 5;
    private const int ActiveBefore = 10, ActiveAfter = 30;
    private const int NearSeconds = 4, FarSeconds = 15;
    private const int FewestSteps = 60;

    private readonly double[][] _decibels;

    private FloorTrack(double[][] decibels) => _decibels = decibels;

    /// <summary>Measures the floors: first what is seldom undercut, then the mean of all that does not stand out of that.</summary>
    public static FloorTrack Measure(LevelTrack track)
    {
        var floors = new double[track.Rows][];
        var active = new bool[track.Steps];
        for (var row = 0; row < floors.Length; row++)
        {
            var smooth = Smoothing.Mean(track.Powers(row), track.Reach(row));
            floors[row] = Envelope(smooth, track.Freedom(row) * ((2 * track.Reach(row)) + 1));
            MarkActive(smooth, floors[row], active);
        }

        var quiet = Widened(active);
        for (var row = 0; row < floors.Length; row++)
            floors[row] = Means(track.Powers(row), quiet, floors[row]);
        return new(floors);
    }

    /// <summary>The floor of a row at a step, as a power.</summary>
    public double Power(int row, int step) => Math.Pow(10, Decibels(_decibels[row], step) / 10);

    private static double Decibels(double[] floor, int step)
    {
        var at = Math.Clamp(((step + 0.5) / LevelTrack.StepsPerSecond) - 0.5, 0, floor.Length - 1);
        var (low, part) = ((int)at, at - (int)at);
        return part == 0 ? floor[low] : floor[low] + (part * (floor[low + 1] - floor[low]));
    }

    // A lower envelope: from every second's quiet level a cone opens upwards, and the lowest cone counts.
    private static double[] Envelope(float[] smooth, double freedom)
    {
        var loudest = 10 * Math.Log10(Math.Max(smooth.Length == 0 ? 0 : smooth.Max(), 1e-20));
        var least = Math.Max(Quietest, loudest - BelowLoudest);
        var seconds = Math.Max(1, smooth.Length / LevelTrack.StepsPerSecond);
        // A fifth of normal noise's smoothed powers lies below this part of their mean (Wilson and Hilferty's approximation).
        var spread = 2 / (9 * freedom);
        var bias = 30 * Math.Log10(Math.Max(0.4, 1 - spread - (0.8416 * Math.Sqrt(spread))));
        var floor = new double[seconds];
        for (var s = 0; s < seconds; s++)
        {
            var end = s == seconds - 1 ? smooth.Length : (s + 1) * LevelTrack.StepsPerSecond;
            // Zeros are no sound of the place: gaps of a file, not quiet.
            var heard = smooth[(s * LevelTrack.StepsPerSecond)..end].Where(p => p > 1e-15f).Order().ToArray();
            floor[s] = heard.Length == 0 ? double.PositiveInfinity : (10 * Math.Log10(heard[(int)(QuietShare * (heard.Length - 1))])) - bias;
        }

        for (var s = 1; s < seconds; s++)
            floor[s] = Math.Min(floor[s], floor[s - 1] + DecibelsPerSecond);
        for (var s = seconds - 2; s >= 0; s--)
            floor[s] = Math.Min(floor[s], floor[s + 1] + DecibelsPerSecond);
        return Array.ConvertAll(floor, f => double.IsFinite(f) ? Math.Max(f, least) : least);
    }

    private static void MarkActive(float[] smooth, double[] floor, bool[] active)
    {
        for (var step = 0; step < smooth.Length; step++)
            active[step] |= smooth[step] > Math.Pow(10, (Decibels(floor, step) + ActiveDecibels) / 10);
    }

    private static bool[] Widened(bool[] active)
    {
        var quiet = new bool[active.Length];
        Array.Fill(quiet, true);
        for (var step = 0; step < active.Length; step++)
        {
            if (active[step])
                quiet.AsSpan(Math.Max(0, step - ActiveBefore)..Math.Min(quiet.Length, step + ActiveAfter)).Clear();
        }

        return quiet;
    }

    private static double[] Means(float[] powers, bool[] quiet, double[] envelope)
    {
        var (sums, counts) = (new double[envelope.Length], new int[envelope.Length]);
        for (var step = 0; step < powers.Length; step++)
        {
            if (!quiet[step] || powers[step] <= 1e-15f)
                continue;
            var s = Math.Min(step / LevelTrack.StepsPerSecond, sums.Length - 1);
            sums[s] += powers[step];
            counts[s]++;
        }

        var least = Math.Max(Quietest, (10 * Math.Log10(Math.Max(powers.Length == 0 ? 0 : powers.Max(), 1e-20))) - BelowLoudest);
        return [.. Enumerable.Range(0, envelope.Length).Select(s => Math.Max(least, Near(sums, counts, s) ?? envelope[s]))];
    }

    private static double? Near(double[] sums, int[] counts, int second)
    {
        foreach (var reach in (ReadOnlySpan<int>)[NearSeconds, FarSeconds])
        {
            var (sum, count) = (0.0, 0);
            for (var s = Math.Max(0, second - reach); s < Math.Min(sums.Length, second + reach + 1); s++)
                (sum, count) = (sum + sums[s], count + counts[s]);
            if (count >= FewestSteps && sum > 0)
                return 10 * Math.Log10(sum / count);
        }

        return null;
    }
}
