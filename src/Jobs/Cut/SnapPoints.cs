namespace Athwart.Jobs.Cut;

/// <summary>Moves the end of a cut to a near place where it is less heard.</summary>
internal static class SnapPoints
{
    private const double ZeroReachSeconds = 0.005;
    private const double QuietReachSeconds = 0.05;
    private const double QuietWindowSeconds = 0.005;

    /// <summary>The place to cut at.</summary>
    /// <param name="reader">The take.</param>
    /// <param name="frame">Where the cut would be; the start and the end of a take stay.</param>
    /// <param name="least">The lowest frame allowed.</param>
    /// <param name="most">The highest frame allowed.</param>
    /// <param name="snap">To what.</param>
    public static long Near(PairReader reader, long frame, long least, long most, CutSnap snap)
    {
        if (snap == CutSnap.None || frame <= 0 || frame >= reader.FrameCount || least > most)
            return frame;
        var reach = (long)((snap == CutSnap.Zero ? ZeroReachSeconds : QuietReachSeconds) * reader.SampleRateHertz);
        var (from, to) = (Math.Max(Math.Max(1, least), frame - reach), Math.Min(Math.Min(reader.FrameCount - 1, most), frame + reach));
        if (from > to)
            return frame;
        return snap == CutSnap.Zero ? Zero(reader, frame, from, to) : Quiet(reader, frame, from, to);
    }

    // A cut at frame n begins with sample n: the mid has just changed its sign, or is nothing. Among those the side is smallest.
    private static long Zero(PairReader reader, long frame, long from, long to)
    {
        var (mid, side) = reader.Read(from - 1, to + 1);
        var (best, least) = (frame, double.PositiveInfinity);
        for (var n = from; n <= to; n++)
        {
            var i = n - from + 1;
            if (mid[i] != 0 && (mid[i] > 0) == (mid[i - 1] > 0))
                continue;
            var size = Math.Abs(mid[i]) + Math.Abs(side[i]);
            if (size < least || (size == least && Math.Abs(n - frame) < Math.Abs(best - frame)))
                (best, least) = (n, size);
        }

        return best;
    }

    private static long Quiet(PairReader reader, long frame, long from, long to)
    {
        var half = Math.Max(1, (long)(QuietWindowSeconds * reader.SampleRateHertz / 2));
        var (mid, side) = reader.Read(from - half, to + half);
        var sums = new double[mid.Length + 1];
        for (var i = 0; i < mid.Length; i++)
            sums[i + 1] = sums[i] + (mid[i] * mid[i]) + (side[i] * side[i]);
        var (best, least) = (frame, double.PositiveInfinity);
        for (var n = from; n <= to; n++)
        {
            var i = n - from;
            var energy = sums[i + (2 * half)] - sums[i];
            if (energy < least || (energy == least && Math.Abs(n - frame) < Math.Abs(best - frame)))
                (best, least) = (n, energy);
        }

        return best;
    }
}
