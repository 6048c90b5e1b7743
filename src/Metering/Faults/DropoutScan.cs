namespace Athwart.Metering.Faults;

/// <summary>Short runs of exact zeros in the middle of sound: 24 frames or more, and shorter than what counts as digital silence.</summary>
internal sealed class DropoutScan(SampleScale scale, int sampleRateHertz)
{
    internal const int Shortest = 24;
    private const int Stride = 16, Look = 256;
    private readonly RunLedger _runs = new(1);
    private readonly int _longest = ChannelScan.SilenceFrames(sampleRateHertz);

    // Below −60 dBFS, or 64 steps, zeros happen by themselves.
    private readonly float _loud = (float)Math.Max(1e-3, 64 * scale.Step);
    private long _from = -1;
    private float _level;

    /// <summary>Takes the next block with its past.</summary>
    public void Scan(ReadOnlySpan<float> samples, int first, long origin)
    {
        var i = PairHistory.Past;
        while (i < samples.Length)
        {
            if (samples[i] != 0)
            {
                Close(origin + i);
                i = i + Stride < samples.Length ? i + Stride : Math.Max(i + 1, samples.Length - 1);
                continue;
            }

            if (_from < 0)
                Open(samples, i, first, origin);
            var rest = samples[i..].IndexOfAnyExcept(0f);
            if (rest < 0)
                return;
            i += rest;
        }
    }

    /// <summary>The runs inside the take; zeros at its very end are none.</summary>
    public SampleRuns Complete() => _runs.ToRuns();

    private void Open(ReadOnlySpan<float> samples, int at, int first, long origin)
    {
        while (at > first && samples[at - 1] == 0)
            at--;
        _from = origin + at;
        _level = 0;
        foreach (var x in samples[Math.Max(first, at - Look)..at])
            _level = MathF.Max(_level, MathF.Abs(x));
    }

    private void Close(long frame)
    {
        if (_from >= 0 && frame - _from >= Shortest && frame - _from < _longest && _level >= _loud)
            _runs.Add(_from, frame, _level);
        _from = -1;
    }
}
