using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Metering;

/// <summary>
/// Finds flat tops: four or more samples that stay equal at a peak although the curve on both sides was still climbing.
/// </summary>
/// <remarks>
/// A slow, coarsely quantised peak is flat too, but the curve beside it has nearly stopped. So the slopes on both sides are
/// carried on over the flat part, and it counts only when the curve would have passed it by more than four steps and by 0.2 % of
/// its level (−54 dB). Common practice, no published source.
/// </remarks>
internal sealed class FlatTopRuns(SampleScale scale, long joinWithinFrames)
{
    internal const int Shortest = 4;
    internal const float QuietestLevel = 0.01f; // −40 dBFS: below, no converter or limiter clips.
    private readonly RunLedger _ledger = new(joinWithinFrames);
    private readonly CeilingHistogram _ceiling = new();
    private readonly float _step = (float)scale.Step;
    private readonly float _fullScale = (float)scale.FullScaleMagnitude;
    private long _openFrom = -1;
    private float _level;
    private float _entrySlope;

    /// <summary>Takes the next block.</summary>
    /// <param name="window">History of <see cref="SampleWindow.Lead"/> samples, then the block.</param>
    /// <param name="count">Frames in the block.</param>
    /// <param name="firstFrame">Frame of the first sample of the block.</param>
    /// <param name="blockPeak">max |x| of the block.</param>
    public void Scan(ReadOnlySpan<float> window, int count, long firstFrame, float blockPeak)
    {
        window = window[..(SampleWindow.Lead + count)];
        var origin = firstFrame - SampleWindow.Lead;
        var carriedOn = _openFrom >= 0;
        var at = Continue(window, SampleWindow.Lead, origin, Tolerance(_level));
        if (blockPeak < QuietestLevel)
            return;
        // The lowest level of interest: a clipped half-wave reaches the top of its block.
        var floor = MathF.Max(QuietestLevel, blockPeak * 0.5f);
        at -= carriedOn || firstFrame == 0 ? 0 : Shortest - 1;
        while (_openFrom < 0 && (at = NextFlat(window, at, floor, Tolerance(floor))) >= 0)
            at = Open(window, at, origin);
    }

    /// <summary>The runs of a take that ends here, and the share of them at the ceiling.</summary>
    public (SampleRuns Runs, double AtCeiling) Complete()
    {
        _openFrom = -1;
        return (_ledger.ToRuns(), _ceiling.ShareAtCeiling());
    }

    private float Tolerance(float level) => MathF.Max(1.01f * _step, 1e-4f * MathF.Abs(level));

    /// <summary>The first place from which four samples agree within the tolerance, at or above the floor; −1 when there is none.</summary>
    private static int NextFlat(ReadOnlySpan<float> window, int at, float floor, float tolerance)
    {
        var last = window.Length - Shortest;
        if (Vector256.IsHardwareAccelerated)
        {
            ref var start = ref MemoryMarshal.GetReference(window);
            var (low, near) = (Vector256.Create(floor), Vector256.Create(tolerance));
            for (; at + 7 <= last; at += 8)
            {
                var (a, b) = (Vector256.LoadUnsafe(ref start, (nuint)at), Vector256.LoadUnsafe(ref start, (nuint)at + 1));
                var (c, d) = (Vector256.LoadUnsafe(ref start, (nuint)at + 2), Vector256.LoadUnsafe(ref start, (nuint)at + 3));
                var spread = Vector256.MaxNative(Vector256.MaxNative(a, b), Vector256.MaxNative(c, d)) - Vector256.MinNative(Vector256.MinNative(a, b), Vector256.MinNative(c, d));
                if (Vector256.EqualsAny((Vector256.LessThanOrEqual(spread, near) & Vector256.GreaterThanOrEqual(Vector256.Abs(a), low)).AsInt32(), Vector256<int>.AllBitsSet))
                    break;
            }
        }

        for (; at <= last; at++)
        {
            if (IsFlat(window.Slice(at, Shortest), floor, tolerance))
                return at;
        }

        return -1;
    }

    private static bool IsFlat(ReadOnlySpan<float> four, float floor, float tolerance)
    {
        var spread = MathF.Max(MathF.Max(four[0], four[1]), MathF.Max(four[2], four[3])) - MathF.Min(MathF.Min(four[0], four[1]), MathF.Min(four[2], four[3]));
        return spread <= tolerance && MathF.Abs(four[0]) >= floor;
    }

    /// <summary>Starts a run around a flat place and follows it; returns where to look on.</summary>
    private int Open(ReadOnlySpan<float> window, int at, long origin)
    {
        _level = window[at];
        var tolerance = Tolerance(_level);
        var start = at;
        while (start > 2 && MathF.Abs(window[start - 1] - _level) <= tolerance)
            start--;
        _openFrom = origin + start;
        _entrySlope = start >= 2 ? Slope(window[start - 1], window[start - 2]) : 0;
        return Continue(window, at, origin, tolerance);
    }

    /// <summary>Follows the open run from a sample on; returns the first sample that is not part of it.</summary>
    private int Continue(ReadOnlySpan<float> window, int at, long origin, float tolerance)
    {
        if (_openFrom < 0)
            return at;
        while (at < window.Length && MathF.Abs(window[at] - _level) <= tolerance)
            at++;
        if (at < window.Length)
            Close(window, at, origin + at);
        return at;
    }

    private void Close(ReadOnlySpan<float> window, int at, long frame)
    {
        // At the very end of a block only one sample beside the run is at hand; its distance stands for the slope.
        var exitSlope = at + 1 < window.Length ? Slope(window[at], window[at + 1]) : Below(window[at]);
        var length = frame - _openFrom;
        var passedBy = MathF.Min(_entrySlope, exitSlope) * length / 4;
        var magnitude = MathF.Abs(_level);
        if (length >= Shortest && magnitude < _fullScale && passedBy > MathF.Max(4 * _step, 0.002f * magnitude))
        {
            _ledger.Add(_openFrom, frame, magnitude);
            _ceiling.Add(_level);
        }

        _openFrom = -1;
    }

    /// <summary>How much closer to the level the nearer of two samples is; negative when the curve was not climbing to it.</summary>
    private float Slope(float nearer, float farther) => Below(nearer) > 0 ? Below(farther) - Below(nearer) : -1;

    private float Below(float sample) => _level > 0 ? _level - sample : sample - _level;
}
