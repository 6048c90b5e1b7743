namespace Athwart.Signals.Delays;

/// <summary>A delay by whole frames: every sample comes out with the bits it went in with. Noughts come before the first.</summary>
/// <param name="frames">By how many frames, 0 or more.</param>
internal sealed class DelayLine(int frames)
{
    private readonly double[] _ring = new double[frames];
    private readonly double[] _passing = new double[Math.Min(frames, 1024)];
    private int _at;

    public int Frames => _ring.Length;

    public void Reset()
    {
        Array.Clear(_ring);
        _at = 0;
    }

    /// <summary>Takes the next samples and puts in their place those of <see cref="Frames"/> before.</summary>
    public void Process(Span<double> samples)
    {
        while (_ring.Length > 0 && samples.Length > 0)
        {
            var count = Math.Min(samples.Length, Math.Min(_passing.Length, _ring.Length - _at));
            var held = _ring.AsSpan(_at, count);
            held.CopyTo(_passing);
            samples[..count].CopyTo(held);
            _passing.AsSpan(0, count).CopyTo(samples);
            samples = samples[count..];
            _at = (_at + count) % _ring.Length;
        }
    }
}
