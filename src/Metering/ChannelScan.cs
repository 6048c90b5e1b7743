using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>The peaks and events of one channel; one block at a time from its window.</summary>
internal sealed class ChannelScan
{
    private readonly ChannelRole _role;
    private readonly TruePeakScanner _truePeak;
    private readonly LevelRuns _fullScale;
    private readonly LevelRuns? _overs;
    private readonly FlatTopRuns? _flatTops;
    private readonly CeilingSamples? _ceiling;
    private readonly SilenceRuns? _silence;
    private readonly float[] _subPeaks = new float[SampleWindow.Length / SampleWindow.SubBlock];
    private float _samplePeak;
    private long _samplePeakFrame;
    private float? _constant;
    private bool _varies;

    public ChannelScan(ChannelRole role, int sampleRateHertz, SampleScale scale, MeterSettings settings)
    {
        var join = sampleRateHertz / 10;
        var recorded = role is ChannelRole.Mid or ChannelRole.Side;
        _role = role;
        _truePeak = new(sampleRateHertz, settings.TruePeak);
        // A decoded channel does not stop at full scale: what lies beyond would be cut off in an integer file.
        _fullScale = recorded ? new(scale.FullScaleMagnitude, 3, false, join) : new(1, 1, true, join);
        if (!recorded)
            return;
        _overs = scale.IsInteger ? null : new(1, 1, true, join);
        _flatTops = new(scale, join);
        _ceiling = new(scale, join);
        _silence = new(SilenceFrames(sampleRateHertz), sampleRateHertz / 1000);
    }

    /// <summary>The samples.</summary>
    public SampleWindow Window { get; } = new();

    /// <summary>Samples that were no numbers.</summary>
    public long NotFinite { get; set; }

    /// <summary>50 ms in frames.</summary>
    public static int SilenceFrames(int sampleRateHertz) => Math.Max(64, sampleRateHertz / 20);

    /// <summary>Scans the block in the window.</summary>
    public void Scan(int count, long firstFrame)
    {
        var block = Window.Block[..count];
        Window.Block[count..].Clear();
        var padded = Window.Block[..((count + SampleWindow.SubBlock - 1) / SampleWindow.SubBlock * SampleWindow.SubBlock)];
        var peak = BlockPeaks.Fill(padded, _subPeaks);
        if (peak > _samplePeak)
            (_samplePeak, _samplePeakFrame) = (peak, firstFrame + IndexOf(block, peak));
        _truePeak.Scan(Window.Samples, count, _subPeaks, peak);
        _fullScale.Scan(block, firstFrame, peak);
        _overs?.Scan(block, firstFrame, peak);
        _flatTops?.Scan(Window.Samples, count, firstFrame, peak);
        _ceiling?.Scan(block, firstFrame, peak);
        _silence?.Scan(block, firstFrame);
        if (!_varies && count > 0)
            _varies = block.ContainsAnyExcept(_constant ??= block[0]);
    }

    /// <summary>What was found; levels over the whole take are filled in by the meter.</summary>
    public RoleMeasures Complete(long frames)
    {
        var (flatTops, atCeiling) = _flatTops?.Complete() ?? (SampleRuns.None, 0);
        // High sound is cut from rail to rail, without four equal samples in a row.
        if (flatTops.Count < 3 && _ceiling?.Complete(frames) is { Runs.Count: >= 3 } ceiling)
            (flatTops, atCeiling) = ceiling;
        return new()
        {
            Role = _role,
            SamplePeak = DecibelsFullScale.FromAmplitude(_samplePeak),
            SamplePeakAt = new(_samplePeakFrame),
            TruePeak = DecibelsFullScale.FromAmplitude(_truePeak.Peak),
            IsConstant = !_varies,
            NotFinite = NotFinite,
            FullScale = _fullScale.Complete(frames),
            FloatOvers = _overs?.Complete(frames) ?? SampleRuns.None,
            FlatTops = flatTops,
            FlatTopsAtCeiling = atCeiling,
            DigitalSilence = _silence?.Complete(frames) ?? SampleRuns.None,
        };
    }

    private static int IndexOf(ReadOnlySpan<float> block, float magnitude)
    {
        var index = block.IndexOfAny(magnitude, -magnitude);
        return Math.Max(0, index);
    }
}
