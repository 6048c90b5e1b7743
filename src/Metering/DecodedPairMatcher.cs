using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>
/// Decides whether a left/right pair is the decode of a mid/side pair, as recorders write beside the raw channels, and at which side
/// level.
/// </summary>
/// <remarks>
/// Fits left = a·mid + b·side and right = c·mid + d·side by least squares over the whole recording. It is called a decode only when
/// the fit leaves less than −40 dB over, in the whole and in every second, and a = c and b = −d within 1 % of the larger of them. The
/// files must start at the same frame. Answers do not depend on how the streams are cut into blocks, to 1e-9 dB.
/// </remarks>
public sealed class DecodedPairMatcher
{
    internal const double FitShare = 1e-4; // −40 dB
    internal const double SymmetryShare = 0.01;
    internal const double QuietestMeanSquare = 1e-10; // −100 dBFS
    private readonly int _windowFrames;
    private readonly List<QuadSums> _windows = [];
    private QuadSums _total, _window;

    /// <summary>A matcher for one recording.</summary>
    /// <param name="sampleRateHertz">Sample rate in hertz; 1 s is the stretch within which the fit must hold.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate is not positive.</exception>
    public DecodedPairMatcher(int sampleRateHertz)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sampleRateHertz);
        _windowFrames = sampleRateHertz;
    }

    /// <summary>Takes the next block of all four channels, n samples each.</summary>
    /// <exception cref="ArgumentException">The lengths differ.</exception>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side, ReadOnlySpan<float> left, ReadOnlySpan<float> right)
    {
        if (side.Length != mid.Length || left.Length != mid.Length || right.Length != mid.Length)
            throw new ArgumentException($"The channels have {mid.Length}, {side.Length}, {left.Length} and {right.Length} samples; give all the same number.", nameof(side));
        for (var at = 0; at < mid.Length;)
        {
            var take = (int)Math.Min(mid.Length - at, _windowFrames - _window.MidSide.Frames);
            _window += QuadSums.Of(mid.Slice(at, take), side.Slice(at, take), left.Slice(at, take), right.Slice(at, take));
            at += take;
            if (_window.MidSide.Frames >= _windowFrames)
                CloseWindow();
        }
    }

    /// <summary>The verdict on everything so far.</summary>
    public DecodedPairMatch Complete()
    {
        var total = _total + _window;
        var frames = total.MidSide.Frames;
        var undecided = new DecodedPairMatch { Verdict = DecodedPairVerdict.Undecided, FrameCount = new((long)frames) };
        if (frames < 0.1 * _windowFrames || !Audible(total) || !total.TrySolve(out var matrix))
            return undecided;
        var residual = total.ResidualShare(matrix);
        var worst = Math.Max(residual, _windows.Where(Audible).Select(w => w.ResidualShare(matrix)).DefaultIfEmpty(0).Max());
        return Judge(matrix, double.IsFinite(worst) && worst <= FitShare) with
        {
            Matrix = (matrix.LeftMid, matrix.LeftSide, matrix.RightMid, matrix.RightSide),
            Residual = Decibels.FromPowerRatio(residual),
            WorstResidual = Decibels.FromPowerRatio(worst),
            FrameCount = new((long)frames),
        };
    }

    private static bool Audible(QuadSums sums) => sums.Target > QuietestMeanSquare * 2 * sums.MidSide.Frames;

    private static DecodedPairMatch Judge(PairMatrix matrix, bool fits)
    {
        if (!fits)
            return new() { Verdict = DecodedPairVerdict.Unrelated };
        return Decode(matrix, swapped: false) ?? Decode(matrix.RolesSwapped, swapped: true) ?? new() { Verdict = DecodedPairVerdict.OtherMatrix };
    }

    /// <summary>The match when the mid has one gain in both and the side opposite gains; else null.</summary>
    private static DecodedPairMatch? Decode(PairMatrix m, bool swapped)
    {
        var (mid, side) = ((m.LeftMid + m.RightMid) / 2, (m.LeftSide - m.RightSide) / 2);
        var tolerance = SymmetryShare * Math.Max(Math.Abs(mid), Math.Abs(side));
        if (Math.Abs(m.LeftMid - m.RightMid) > 2 * tolerance || Math.Abs(m.LeftSide + m.RightSide) > 2 * tolerance || Math.Abs(mid) <= tolerance)
            return null;
        var ratio = side / mid;
        return new()
        {
            Verdict = DecodedPairVerdict.Decode,
            SideLevel = Math.Abs(ratio) < 1e-4 ? Decibels.Silence : Decibels.FromAmplitudeRatio(ratio),
            MidGain = Decibels.FromAmplitudeRatio(mid),
            MidInverted = mid < 0,
            SideInverted = ratio < 0,
            RolesSwapped = swapped,
        };
    }

    private void CloseWindow()
    {
        _windows.Add(_window);
        _total += _window;
        _window = default;
    }
}
