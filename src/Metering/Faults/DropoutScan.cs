namespace Athwart.Metering.Faults;

/// <summary>Short runs in which a channel stands still in the middle of sound: at zero, or at the last value before it; 24 frames or more.</summary>
/// <remarks>
/// Runs of zeros of 50 ms and more count as digital silence and are left to it. A top cut flat stands still as well: it lies beyond all that
/// is around it and is left without a jump.
/// </remarks>
internal sealed class DropoutScan(SampleScale scale, int sampleRateHertz)
{
    internal const int Shortest = 24;
    private const int Stride = 12, Look = 256;
    private readonly RunLedger _runs = new(1);
    private readonly int _longest = ChannelScan.SilenceFrames(sampleRateHertz);

    // Below −60 dBFS, or 64 steps, samples stand still by themselves.
    private readonly float _loud = (float)Math.Max(1e-3, 64 * scale.Step);
    private readonly float _full = (float)(0.999 * scale.FullScaleMagnitude);
    private long _from = -1;
    private float _value, _level, _highest, _slope;

    /// <summary>Takes the next block with its past.</summary>
    public void Scan(ReadOnlySpan<float> samples, int first, long origin)
    {
        var i = Math.Max(PairHistory.Past, first + 1);
        if (_from >= 0)
            i = Follow(samples, i, origin);
        while (i < samples.Length)
        {
            if (samples[i] != samples[i - 1])
            {
                i = i + Stride < samples.Length ? i + Stride : Math.Max(i + 1, samples.Length - 1);
                continue;
            }

            Open(samples, i, first, origin);
            i = Follow(samples, i, origin);
        }
    }

    /// <summary>The runs inside the take; one at its very end is none.</summary>
    public SampleRuns Complete() => _runs.ToRuns();

    private int Follow(ReadOnlySpan<float> samples, int at, long origin)
    {
        var rest = samples[at..].IndexOfAnyExcept(_value);
        if (rest < 0)
            return samples.Length;
        Close(samples, at + rest, origin + at + rest);
        return at + rest + 1;
    }

    private void Open(ReadOnlySpan<float> samples, int at, int first, long origin)
    {
        _value = samples[at];
        while (at > first && samples[at - 1] == _value)
            at--;
        // What is held begins with the first repetition; a zero is itself part of the gap.
        _from = origin + at + (_value == 0 ? 0 : 1);
        (_level, _highest, _slope) = (0, 0, 0);
        for (var i = Math.Max(first + 1, at - Look); i < at; i++)
        {
            _level = MathF.Max(_level, MathF.Abs(samples[i] - _value));
            _highest = MathF.Max(_highest, _value < 0 ? -samples[i] : samples[i]);
            _slope = i > at - 32 ? MathF.Max(_slope, MathF.Abs(samples[i] - samples[i - 1])) : 0;
        }
    }

    private void Close(ReadOnlySpan<float> samples, int at, long frame)
    {
        var length = frame - _from;
        if (length >= Shortest && (_value != 0 || length < _longest) && _level >= _loud && !IsTop(samples[at]))
            _runs.Add(_from, frame, _level);
        _from = -1;
    }

    /// <summary>Whether the value is one that an overload stops at.</summary>
    private bool IsTop(float next)
    {
        var magnitude = MathF.Abs(_value);
        return magnitude >= _full || (magnitude > 0.5f * _loud && magnitude >= _highest && MathF.Abs(next - _value) < 2 * _slope);
    }
}
