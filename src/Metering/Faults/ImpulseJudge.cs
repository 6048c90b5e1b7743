namespace Athwart.Metering.Faults;

/// <summary>What a suspicious place in one channel turned out to be.</summary>
internal enum ImpulseKind
{
    /// <summary>Sound: it rings on, or the neighbours foresee it.</summary>
    Sound,

    /// <summary>A few samples that do not belong; with them replaced, nothing is left.</summary>
    Click,

    /// <summary>The sound before and the sound after do not fit together.</summary>
    Break,
}

/// <summary>A judged place: from..to as indices into the samples, size as amplitude, and how far it stands above the residual around.</summary>
internal readonly record struct Impulse(ImpulseKind Kind, int From, int To, double Amplitude, double Ratio);

/// <summary>Tells clicks and breaks from sound by linear prediction.</summary>
/// <remarks>
/// A clap, a step or a drop excites what it hits: the residual stays high for more than half a millisecond after its onset. A click is
/// over after a few samples: take these away and the prediction holds again. A break is unforeseen for exactly the length of the
/// predictor, while samples from before are used to predict those after, and then the prediction holds again.
/// </remarks>
internal sealed class ImpulseJudge(double step)
{
    /// <summary>Longest click, in samples: what a microphone hears is spread over more by its own band limit.</summary>
    public const int LongestClick = 3;

    /// <summary>Residual against that around, at which something is no sound; 10 standard deviations, common practice.</summary>
    public const double Threshold = 10;

    private const int Order = LinearPredictor.Order, Around = 256, Context = 1024, Guard = 16;
    private readonly LinearPredictor _predictor = new();
    private readonly float[] _patched = new float[(2 * (Around + Order)) + LongestClick + (4 * Guard)];

    /// <summary>Judges the place around an index.</summary>
    /// <param name="x">Samples with what context there is.</param>
    /// <param name="at">Where the fourth difference is largest.</param>
    public Impulse Judge(ReadOnlySpan<float> x, int at)
    {
        var (low, high) = (at - Guard - Around, at + Guard + Order + Around);
        if (low < Order || high > x.Length || IsSilent(x[(at - Guard - 32)..(at - Guard)]) || IsSilent(x.Slice(at + Guard, 32)))
            return default;
        var before = x[Math.Max(0, at - Guard - Context)..(at - Guard)];
        var after = x[(at + Guard)..Math.Min(x.Length, at + Guard + Context)];
        if (!_predictor.Fit(before, after))
            return default;
        var scale = Math.Max(Math.Max(Spread(x, low, at - Guard), Spread(x, at + Guard + Order, high)), Math.Max(step / 2, 1e-8));
        var (from, to, largest) = Extent(x, at, scale);
        if (!(largest > Threshold * scale))
            return default;
        return Patch(x, from, to, scale, largest / scale);
    }

    private static bool IsSilent(ReadOnlySpan<float> x) => !x.ContainsAnyExcept(0f);

    private double Spread(ReadOnlySpan<float> x, int from, int to)
    {
        var sum = 0.0;
        for (var i = from; i < to; i++)
        {
            var r = _predictor.Residual(x, i);
            sum += r * r;
        }

        return Math.Sqrt(sum / (to - from));
    }

    /// <summary>The first unforeseen sample, and the end of what the fourth difference shows.</summary>
    private (int From, int To, double Largest) Extent(ReadOnlySpan<float> x, int at, double scale)
    {
        var (first, last, largest) = (-1, -1, 0.0);
        for (var i = at - Guard; i < at + Guard; i++)
        {
            var r = Math.Abs(_predictor.Residual(x, i));
            largest = Math.Max(largest, r);
            if (first < 0 && r > Threshold / 2 * scale)
                first = i;
        }

        var share = FourthDifference.At(x, at) / 8;
        for (var i = at - Guard; i < at + Guard; i++)
        {
            if (FourthDifference.At(x, i) > share)
                last = i;
        }

        return (first, Math.Max(first + 1, last + 1), largest);
    }

    private Impulse Patch(ReadOnlySpan<float> x, int from, int to, double scale, double ratio)
    {
        // The shortest patch that serves is the click.
        for (var length = 1; length <= LongestClick; length++)
        {
            var origin = from - Order - Guard;
            var piece = _patched.AsSpan(0, Order + Guard + length + (2 * Order));
            x.Slice(origin, piece.Length).CopyTo(piece);
            var at = Order + Guard;
            if (!GapFiller.Fill(piece, at, at + length, _predictor) || !Holds(piece, at, length, scale))
                continue;
            return Click(x, piece, from, length, origin, ratio);
        }

        var joint = to - from <= 16 ? Joint(x, from, scale) : -1;
        return joint < 0 ? default : new(BreakOrSound(x, joint, scale), joint, joint, Math.Abs(x[joint] - x[joint - 1]), ratio);
    }

    private bool Holds(ReadOnlySpan<float> piece, int at, int length, double scale)
    {
        for (var i = at - 2; i < at + length + Order; i++)
        {
            if (Math.Abs(_predictor.Residual(piece, i)) > 5 * scale)
                return false;
        }

        return true;
    }

    private static Impulse Click(ReadOnlySpan<float> x, ReadOnlySpan<float> piece, int from, int length, int origin, double ratio)
    {
        var size = 0.0;
        for (var i = from; i < from + length; i++)
            size = Math.Max(size, Math.Abs(x[i] - piece[i - origin]));
        var (first, last) = (from + length, from);
        for (var i = from; i < from + length; i++)
        {
            if (Math.Abs(x[i] - piece[i - origin]) > 0.1 * size)
                (first, last) = (Math.Min(first, i), i);
        }

        return new(ImpulseKind.Click, first, last + 1, size, ratio);
    }

    /// <summary>
    /// The first sample behind a joint, near a place; −1 when there is none. What comes after a joint is sound that was there all the time:
    /// read backwards it is foreseen down to the joint, as what came before is forwards. A short pulse is foreseen from neither end.
    /// </summary>
    private int Joint(ReadOnlySpan<float> x, int from, double scale)
    {
        for (var s = from; s > from - 4; s--)
        {
            var holds = true;
            for (var i = s; i < s + Guard && holds; i++)
                holds = Math.Abs(_predictor.Backward(x, i)) <= 6 * scale;
            // One sample earlier it is foreseen no more.
            if (holds && Math.Abs(_predictor.Backward(x, s - 1)) > 3 * scale)
                return s;
        }

        return -1;
    }

    private ImpulseKind BreakOrSound(ReadOnlySpan<float> x, int from, double scale)
    {
        // From here on, none of the samples used comes from before the break.
        for (var i = from + Order; i < from + Order + 64; i++)
        {
            if (Math.Abs(_predictor.Residual(x, i)) > 5 * scale)
                return ImpulseKind.Sound;
        }

        return ImpulseKind.Break;
    }
}
