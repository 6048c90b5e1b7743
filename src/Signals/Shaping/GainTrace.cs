using System.Globalization;

namespace Athwart.Signals.Shaping;

/// <summary>The gain that a step applied to the side over a stretch of the take, kept in columns so that it can be drawn.</summary>
/// <remarks>Each column holds the lowest gain in it, as an amplitude ratio; 1 where the step has not been. Memory does not grow with the take.</remarks>
public sealed class GainTrace
{
    private readonly double[] _lowest;

    /// <summary>A trace of a stretch.</summary>
    /// <param name="firstFrame">Where it starts in the take.</param>
    /// <param name="frameCount">How long it is, 1 or more.</param>
    /// <param name="columns">How many columns it is drawn in, 1 to 1,000,000; no more than frames.</param>
    /// <exception cref="ArgumentOutOfRangeException">The stretch is empty, or the columns are out of range.</exception>
    public GainTrace(long firstFrame, long frameCount, int columns)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(frameCount, 1);
        if (columns < 1 || columns > Math.Min(frameCount, 1_000_000))
            throw new ArgumentOutOfRangeException(nameof(columns), columns, string.Create(CultureInfo.InvariantCulture, $"A trace of {frameCount} frames has 1 to {Math.Min(frameCount, 1_000_000)} columns."));
        FirstFrame = firstFrame;
        FrameCount = frameCount;
        _lowest = new double[columns];
        Array.Fill(_lowest, 1);
    }

    /// <summary>Where the stretch starts in the take.</summary>
    public long FirstFrame { get; }

    /// <summary>How long the stretch is.</summary>
    public long FrameCount { get; }

    /// <summary>The lowest gain of each column, an amplitude ratio of 0 to 1, or above 1 where a step may raise the side.</summary>
    public ReadOnlySpan<double> Lowest => _lowest;

    /// <summary>The lowest gain of all, an amplitude ratio.</summary>
    public double LowestOfAll => _lowest.Min();

    // A column that nothing was said of holds 1, which is also what a raised gain has to replace.
    internal void Note(long frame, int count, double gain)
    {
        long from = Math.Max(0, frame - FirstFrame), to = Math.Min(FrameCount, frame - FirstFrame + count);
        if (from >= to)
            return;
        var last = Column(to - 1);
        for (var column = Column(from); column <= last; column++)
            _lowest[column] = _lowest[column] == 1 ? gain : Math.Min(_lowest[column], gain);
    }

    private int Column(long frame) => (int)((Int128)frame * _lowest.Length / FrameCount);
}
