namespace Athwart.Metering.Faults;

/// <summary>How the levels of a <see cref="GainCourse"/> differ before and after a frame, robust against what sounds for less than half the time looked at.</summary>
internal sealed class GainView
{
    private const double Quietest = -125;
    private readonly GainCourse _course;
    private readonly double[] _differences;

    public GainView(GainCourse course)
    {
        _course = course;
        _differences = new double[course.Count];
        for (var i = 0; i < _differences.Length; i++)
            _differences[i] = Difference(i);
    }

    /// <summary>Frames.</summary>
    public int Count => _differences.Length;

    /// <summary>How far the side moves against the mid, mean over the bands; decibels.</summary>
    public double Step(int at, int width) => Quantile(_differences, at + 1, width, 0.5) - Quantile(_differences, at - width, width, 0.5);

    /// <summary>The standard error of <see cref="Step"/>, from how the side wavers against the mid on both sides.</summary>
    public double StepError(int at, int width)
    {
        double Deviation(int from) => (Quantile(_differences, from, width, 0.84) - Quantile(_differences, from, width, 0.16)) / 2;
        var (before, after) = (Deviation(at - width), Deviation(at + 1));
        // A median's error is 1.25 times that of a mean.
        return 1.25 * Math.Sqrt(((before * before) + (after * after)) / width);
    }

    /// <summary>How badly one level before a frame and one after it, the frame itself left out, describe how the side stands against the mid: mean square.</summary>
    public double Misfit(int at, int from, int to)
    {
        var (before, after) = (_differences[from..at], _differences[(at + 1)..to]);
        double Squares(double[] x) => x.Average() is var mean ? x.Sum(d => (d - mean) * (d - mean)) : 0;
        return (Squares(before) + Squares(after)) / (before.Length + after.Length);
    }

    /// <summary>The same for three shares of the time: a gain moves the quiet as it moves the loud.</summary>
    public (double Low, double Middle, double High) Stays(int at, int width)
    {
        double At(double share) => Quantile(_differences, at + 1, width, share) - Quantile(_differences, at - width, width, share);
        return (At(0.15), At(0.5), At(0.85));
    }

    /// <summary>How far the side moves against the mid in each band that has sound, and how the bands differ.</summary>
    public Moves Against(int at, int width) => Over(at, width, 0.5, (b, i) => Ratio(b, i));

    /// <summary>How far one channel moves in each band; from a share of the time: 0.5, or less for its quiet.</summary>
    public Moves Own(bool side, int at, int width, double share = 0.5) => Over(at, width, share, (b, i) => _course.Level(side, b, i));

    private Moves Over(int at, int width, double share, Func<int, int, double> level)
    {
        var moves = new List<double>();
        var (before, after) = (new double[width], new double[width]);
        for (var b = 0; b < _course.Bands; b++)
        {
            if (!HasSound(b, at, width))
                continue;
            for (var i = 0; i < width; i++)
                (before[i], after[i]) = (level(b, at - width + i), level(b, at + 1 + i));
            moves.Add(Quantile(after, 0, width, share) - Quantile(before, 0, width, share));
        }

        return Moves.Of(moves);
    }

    /// <summary>Whether a band lies above rounding in both channels, before and after.</summary>
    private bool HasSound(int band, int at, int width)
    {
        foreach (var side in (ReadOnlySpan<bool>)[false, true])
        {
            var (before, after) = (0.0, 0.0);
            for (var i = 0; i < width; i++)
                (before, after) = (before + _course.Level(side, band, at - 1 - i), after + _course.Level(side, band, at + 1 + i));
            if (Math.Min(before, after) < Quietest * width)
                return false;
        }

        return true;
    }

    private double Ratio(int band, int frame) => Math.Clamp(_course.Level(true, band, frame) - _course.Level(false, band, frame), -50, 50);

    private double Difference(int frame)
    {
        // Wide bands waver less; by the root of their bins, so that no band decides alone.
        var (sum, all) = (0.0, 0.0);
        for (var b = 0; b < _course.Bands; b++)
        {
            var weight = Math.Sqrt(_course.Bins(b));
            if (Math.Min(_course.Level(true, b, frame), _course.Level(false, b, frame)) > Quietest)
                (sum, all) = (sum + (weight * Ratio(b, frame)), all + weight);
        }

        return all > 0 ? sum / all : 0;
    }

    private static double Quantile(double[] of, int from, int width, double share)
    {
        Span<double> sorted = stackalloc double[width];
        of.AsSpan(from, width).CopyTo(sorted);
        sorted.Sort();
        var at = share * (width - 1);
        var low = (int)at;
        return sorted[low] + ((at - low) * (sorted[Math.Min(low + 1, width - 1)] - sorted[low]));
    }
}

/// <summary>How far bands move: their mean without the two extremes, the deviation from it, and how many there are; decibels.</summary>
internal readonly record struct Moves(double Mean, double Deviation, int Bands)
{
    private const int Fewest = 4;

    /// <summary>0 and far too wide below four bands.</summary>
    public static Moves Of(List<double> moves)
    {
        if (moves.Count < Fewest)
            return new(0, 99, moves.Count);
        moves.Sort();
        var kept = moves.GetRange(1, moves.Count - 2);
        var mean = kept.Average();
        return new(mean, Math.Sqrt(kept.Average(x => (x - mean) * (x - mean))), moves.Count);
    }
}
