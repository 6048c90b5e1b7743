using System.Runtime.InteropServices;

namespace Athwart.Metering.Faults;

/// <summary>Mid and side at about 2 kHz, cut into the frames that hum and wind are judged by.</summary>
internal sealed class LowBand
{
    private readonly DecimatorChain _midDecimator, _sideDecimator;
    private readonly List<float> _mid = [], _side = [];
    private int _nextLine, _nextLow;

    public LowBand(int sampleRateHertz)
    {
        (_midDecimator, _sideDecimator) = (new(sampleRateHertz), new(sampleRateHertz));
        Rate = sampleRateHertz / (double)_midDecimator.Factor;
        (Lines, Low) = (new(Rate), new(Rate));
    }

    /// <summary>Samples a second.</summary>
    public double Rate { get; }

    /// <summary>Frames between them.</summary>
    public int Factor => _midDecimator.Factor;

    public LineSpectrum Lines { get; }

    public LowFrames Low { get; }

    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        _midDecimator.Add(mid, _mid);
        _sideDecimator.Add(side, _side);
        ReadOnlySpan<float> m = CollectionsMarshal.AsSpan(_mid);
        ReadOnlySpan<float> s = CollectionsMarshal.AsSpan(_side);
        for (; _nextLine + LineSpectrum.Length <= m.Length; _nextLine += LineSpectrum.Hop)
            Lines.Add(m.Slice(_nextLine, LineSpectrum.Length), s.Slice(_nextLine, LineSpectrum.Length));
        for (; _nextLow + LowFrames.Length <= m.Length; _nextLow += LowFrames.Hop)
            Low.Add(m.Slice(_nextLow, LowFrames.Length), s.Slice(_nextLow, LowFrames.Length));
        Forget(Math.Min(_nextLine, _nextLow));
    }

    private void Forget(int count)
    {
        if (count < LineSpectrum.Length)
            return;
        _mid.RemoveRange(0, count);
        _side.RemoveRange(0, count);
        (_nextLine, _nextLow) = (_nextLine - count, _nextLow - count);
    }
}
