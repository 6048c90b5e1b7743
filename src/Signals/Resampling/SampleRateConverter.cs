using System.Collections.Concurrent;

namespace Athwart.Signals.Resampling;

/// <summary>Converts between sample rates with a linear-phase filter; any stretch of the output can be computed alone, with the same bits.</summary>
/// <remarks>
/// Output frame n lies at the time of input frame n·from/to, so the first sample stays first and nothing is shifted. Flat within
/// 0.01 dB up to 0.9 of the lower Nyquist frequency; images and aliases at least 120 dB down from the lower Nyquist frequency on
/// (the tests print the measured figures). Input outside the recording counts as silence. The converter holds no state but its
/// coefficients: threads may share it. Bits are the same on every machine, for any split into blocks, and for one channel or two at once.
/// Not a number or an infinity in the input spreads over the length of the filter.
/// </remarks>
public sealed class SampleRateConverter
{
    private static readonly ConcurrentDictionary<(int From, int To), Lazy<PolyphaseTable>> Tables = new();
    private readonly PolyphaseTable _table;
    private readonly int _stretch;

    /// <summary>A converter from one rate to another.</summary>
    /// <param name="fromHertz">Rate of the input: 44100, 48000, 88200, 96000, 176400 or 192000 Hz.</param>
    /// <param name="toHertz">Rate of the output, another of these.</param>
    /// <exception cref="ArgumentException">A rate is not supported, or both are the same.</exception>
    public SampleRateConverter(int fromHertz, int toHertz)
    {
        if (!Supports(fromHertz, toHertz))
            throw new ArgumentException($"No conversion from {fromHertz} to {toHertz} Hz; the rates are 44100, 48000, 88200, 96000, 176400 and 192000 Hz.", nameof(toHertz));
        FromHertz = fromHertz;
        ToHertz = toHertz;
        _table = Tables.GetOrAdd((fromHertz, toHertz), static rates =>
            new(() => PolyphaseTable.Design(rates.From, rates.To, PolyphaseKernel.GroupSize))).Value;
        // The rows of a group start at most so many frames after its first one; whole vectors of four.
        var spread = (int)((((long)(PolyphaseKernel.GroupSize - 1) * _table.Advance) + _table.Phases - 1) / _table.Phases);
        _stretch = ((2 * _table.Reach) + spread + 3) & ~3;
    }

    /// <summary>The rate of the input in hertz.</summary>
    public int FromHertz { get; }

    /// <summary>The rate of the output in hertz.</summary>
    public int ToHertz { get; }

    /// <summary>The input frames before and after an output frame that its value may depend on.</summary>
    public int Reach => _table.Reach;

    /// <summary>Whether there is a conversion between two rates in hertz; equal rates need none.</summary>
    public static bool Supports(int fromHertz, int toHertz) => fromHertz != toHertz && Known(fromHertz) && Known(toHertz);

    /// <summary>How many frames come out: inputLength·to/from, rounded up, so that the last input frame is still heard; 0 for 0.</summary>
    public long OutputLength(long inputLength)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(inputLength);
        return (long)((((Int128)inputLength * _table.Phases) + _table.Advance - 1) / _table.Advance);
    }

    /// <summary>The input frames that a stretch of output depends on, from first to (not including) last; From may lie before frame 0.</summary>
    public (long From, long To) InputRange(long firstOutput, int count) => count <= 0
        ? (0, 0)
        : (Floor(firstOutput, out _) - _table.Reach + 1, Floor(firstOutput + count - 1, out _) + _table.Reach + 1);

    /// <summary>Converts one channel.</summary>
    /// <param name="window">Consecutive input frames; frames outside it count as silence, so it covers <see cref="InputRange"/> as far as the recording goes.</param>
    /// <param name="windowFirstFrame">The frame number of the first one.</param>
    /// <param name="firstOutput">The number of the first output frame, 0 or more.</param>
    /// <param name="output">Receives consecutive output frames; apart from <paramref name="window"/>.</param>
    public void Convert(ReadOnlySpan<double> window, long windowFirstFrame, long firstOutput, Span<double> output) =>
        Run(window, default, windowFirstFrame, firstOutput, output, default, pair: false);

    /// <summary>Converts two channels at once, with the bits of two single conversions in less time.</summary>
    /// <param name="first">Input frames of one channel.</param>
    /// <param name="second">Input frames of the other, as many.</param>
    /// <param name="windowFirstFrame">The frame number of the first ones.</param>
    /// <param name="firstOutput">The number of the first output frame, 0 or more.</param>
    /// <param name="firstOutputs">Receives output frames of one channel.</param>
    /// <param name="secondOutputs">Receives as many of the other.</param>
    public void Convert(ReadOnlySpan<double> first, ReadOnlySpan<double> second, long windowFirstFrame, long firstOutput, Span<double> firstOutputs, Span<double> secondOutputs)
    {
        if (second.Length != first.Length || secondOutputs.Length != firstOutputs.Length)
            throw new ArgumentException("Both channels have equally many frames.", nameof(second));
        Run(first, second, windowFirstFrame, firstOutput, firstOutputs, secondOutputs, pair: true);
    }

    private void Run(ReadOnlySpan<double> first, ReadOnlySpan<double> second, long windowFirst, long firstOutput, Span<double> firstOutputs, Span<double> secondOutputs, bool pair)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(firstOutput);
        var edge = new double[2 * _stretch];           // for stretches that reach beyond the window
        Span<double> a = stackalloc double[PolyphaseKernel.GroupSize * PolyphaseKernel.Lanes], b = stackalloc double[PolyphaseKernel.GroupSize * PolyphaseKernel.Lanes];
        Span<int> rows = stackalloc int[PolyphaseKernel.GroupSize];
        // Groups lie on a fixed grid over the whole output, so the order of every sum is that of the whole.
        var n = firstOutput - (firstOutput % PolyphaseKernel.GroupSize);
        var start = Floor(n, out var phase) - _table.Reach + 1;
        for (; n < firstOutput + firstOutputs.Length; n += PolyphaseKernel.GroupSize)
        {
            var next = start + Group(ref phase, rows);
            var x = Stretch(first, start - windowFirst, edge.AsSpan(0, _stretch));
            if (pair)
                PolyphaseKernel.Two(x, Stretch(second, start - windowFirst, edge.AsSpan(_stretch)), _table.Coefficients, rows, a, b);
            else
                PolyphaseKernel.One(x, _table.Coefficients, rows, a);
            Deliver(a, n - firstOutput, firstOutputs);
            if (pair)
                Deliver(b, n - firstOutput, secondOutputs);
            start = next;
        }
    }

    // Where the coefficients of each output of a group start, from the phase of its first one; returns how many input frames later the next group starts.
    private int Group(ref int phase, Span<int> rows)
    {
        var later = 0;
        for (var o = 0; o < rows.Length; o++)
        {
            rows[o] = (phase * _table.RowLength) + _table.Pad - later;
            phase += _table.Advance;
            while (phase >= _table.Phases)
            {
                phase -= _table.Phases;
                later++;
            }
        }

        return later;
    }

    internal static ReadOnlySpan<double> Stretch(ReadOnlySpan<double> window, long offset, Span<double> edge)
    {
        if (offset >= 0 && offset <= window.Length - edge.Length)
            return window.Slice((int)offset, edge.Length);
        edge.Clear();
        long from = Math.Max(0, offset), to = Math.Min(window.Length, offset + edge.Length);
        if (from < to)
            window[(int)from..(int)to].CopyTo(edge[(int)(from - offset)..]);
        return edge;
    }

    private static void Deliver(ReadOnlySpan<double> sums, long at, Span<double> output)
    {
        var first = (int)Math.Max(0, -at);
        var end = (int)Math.Min(PolyphaseKernel.GroupSize, output.Length - at);
        for (var o = first; o < end; o++)
            output[(int)(at + o)] = PolyphaseKernel.Total(sums, o);
    }

    private long Floor(long output, out int phase)
    {
        var place = (Int128)output * _table.Advance;
        phase = (int)(place % _table.Phases);
        return (long)(place / _table.Phases);
    }

    private static bool Known(int hertz) => hertz is 44100 or 48000 or 88200 or 96000 or 176400 or 192000;
}
