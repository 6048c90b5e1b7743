using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>Loudness of a left/right programme as it streams by: momentary, short-term, integrated and range.</summary>
/// <remarks>
/// Momentary and short-term move in steps of 10 ms; before the first full window what came before counts as silence, as in a meter
/// that was just reset. The answers do not depend on how the stream is cut into blocks. Memory: 8 bytes each 10 ms.
/// Source: ITU-R BS.1770-5 Annex 1; EBU Tech 3341 (2023) §2; EBU Tech 3342 (2023).
/// </remarks>
public sealed class LoudnessMeter
{
    private readonly TenMillisecondGrid _grid;
    private readonly PairKWeighting _weighting;
    private readonly List<double> _energies = [];
    private double _open;
    private long _frames;

    /// <summary>A meter that was just reset.</summary>
    /// <param name="sampleRateHertz">8 000 to 768 000 Hz.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate lies outside.</exception>
    public LoudnessMeter(int sampleRateHertz)
    {
        _grid = new(sampleRateHertz);
        _weighting = new(sampleRateHertz);
    }

    /// <summary>Loudness of the last 400 ms; −∞ for silence.</summary>
    public Loudness Momentary => Last(TenMillisecondGrid.MomentarySteps);

    /// <summary>Loudness of the last 3 s; −∞ for silence.</summary>
    public Loudness ShortTerm => Last(TenMillisecondGrid.ShortTermSteps);

    /// <summary>Meters the next block of any length.</summary>
    /// <param name="left">Left, n samples, full scale ±1; not-finite samples make every later reading not a number.</param>
    /// <param name="right">Right, n samples.</param>
    /// <exception cref="ArgumentException">The lengths differ.</exception>
    public void Add(ReadOnlySpan<float> left, ReadOnlySpan<float> right)
    {
        if (left.Length != right.Length)
            throw new ArgumentException($"Left has {left.Length} samples and right {right.Length}; give both the same number.", nameof(right));
        while (!left.IsEmpty)
        {
            var edge = _grid.FrameOf(_energies.Count + 1);
            var take = (int)Math.Min(left.Length, edge - _frames);
            var (first, second) = _weighting.Process(left[..take], right[..take]);
            _open += first + second;
            _frames += take;
            left = left[take..];
            right = right[take..];
            if (_frames == edge)
                Close();
        }
    }

    /// <summary>The figures of everything so far; the last, incomplete 10 ms are not counted.</summary>
    public LoudnessMeasures Measure() => LoudnessGates.Measure(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_energies), _grid);

    private void Close()
    {
        _energies.Add(_open);
        _open = 0;
    }

    private Loudness Last(int steps)
    {
        var sum = 0.0;
        for (var i = Math.Max(0, _energies.Count - steps); i < _energies.Count; i++)
            sum += _energies[i];
        return LoudnessGates.FromMeanSquare(sum / _grid.FramesIn(Math.Max(0, _energies.Count - steps), steps));
    }
}
