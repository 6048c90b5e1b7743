using Athwart.Metering.Faults;
using Athwart.Metering.Slate;
using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>Meters a mid/side take in one read: peaks, levels, loudness, correlation, spectrum and the events detectors need.</summary>
/// <remarks>
/// Blocks may have any length; the answers do not depend on it. Memory: about 1 MB, and 120 bytes each 100 ms of the take; with
/// faults about 6 MB, and 325 bytes, 12 MB an hour. Not
/// thread-safe: one meter a take. Samples that are not finite are metered as 0 and counted.
/// </remarks>
public sealed class TakeMeter
{
    private readonly SampleScale _scale;
    private readonly MeterSettings _settings;
    private readonly PairTrack _track;
    private readonly ChannelScan _mid, _side, _left, _right;
    private readonly SilenceRuns _bothSilent;
    private readonly PairSpectrum? _spectrum;
    private readonly FaultMeter? _faults;
    private readonly PairCross? _cross;
    private readonly SlateScan? _slate;
    private readonly float[] _magnitudes = new float[SampleWindow.Length];
    private bool _identical = true, _opposite = true, _completed;
    private int _filled;

    /// <summary>A meter for one take.</summary>
    /// <param name="sampleRateHertz">8 000 to 768 000 Hz.</param>
    /// <param name="scale">How the samples were stored.</param>
    /// <param name="settings">What to measure; everything at unity side gain when null.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate lies outside, or the side gain is negative or not finite.</exception>
    public TakeMeter(int sampleRateHertz, SampleScale scale, MeterSettings? settings = null)
    {
        _settings = settings ?? new();
        if (!(_settings.SideGain >= 0 && double.IsFinite(_settings.SideGain)))
            throw new ArgumentOutOfRangeException(nameof(settings), _settings.SideGain, "The side gain must be finite and 0 or more.");
        _scale = scale;
        _track = new(sampleRateHertz);
        _mid = new(ChannelRole.Mid, sampleRateHertz, scale, _settings);
        _side = new(ChannelRole.Side, sampleRateHertz, scale, _settings);
        _left = new(ChannelRole.Left, sampleRateHertz, scale, _settings);
        _right = new(ChannelRole.Right, sampleRateHertz, scale, _settings);
        _bothSilent = new(ChannelScan.SilenceFrames(sampleRateHertz), sampleRateHertz / 1000);
        _faults = _settings.Faults ? new(sampleRateHertz, scale) : null;
        _cross = _settings is { Faults: true, Spectrum: true } ? new(sampleRateHertz) : null;
        _slate = _settings.Faults ? new(sampleRateHertz) : null;
        _spectrum = _settings.Spectrum ? new(_cross) : null;
    }

    /// <summary>Meters the next block.</summary>
    /// <param name="mid">Mid, n samples, full scale ±1.</param>
    /// <param name="side">Side, n samples, positive lobe to the left.</param>
    /// <exception cref="ArgumentException">The lengths differ.</exception>
    /// <exception cref="InvalidOperationException">The take was completed before.</exception>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        if (mid.Length != side.Length)
            throw new ArgumentException($"Mid has {mid.Length} samples and side {side.Length}; give both the same number.", nameof(side));
        if (_completed)
            throw new InvalidOperationException("The take was completed; make a new meter for another.");
        while (!mid.IsEmpty)
        {
            var take = Math.Min(mid.Length, SampleWindow.Length - _filled);
            _mid.NotFinite += BlockIntake.Copy(mid[..take], _mid.Window.Block[_filled..]);
            _side.NotFinite += BlockIntake.Copy(side[..take], _side.Window.Block[_filled..]);
            _filled += take;
            mid = mid[take..];
            side = side[take..];
            if (_filled == SampleWindow.Length)
                Block();
        }
    }

    /// <summary>Ends the take and gives its measures.</summary>
    public TakeMeasures Complete()
    {
        if (!_completed && _filled > 0)
            Block();
        _completed = true;
        _spectrum?.Flush();
        return new TakeSummary(_track, _spectrum, _scale, _settings.SideGain).Measures(
            _mid.Complete(_track.Frames),
            _side.Complete(_track.Frames),
            _left.Complete(_track.Frames),
            _right.Complete(_track.Frames),
            (_identical, _opposite, _bothSilent.Complete(_track.Frames)),
            _faults?.Complete(_track.Frames, _cross),
            _slate?.Complete());
    }

    private void Block()
    {
        var (count, first) = (_filled, _track.Frames);
        ReadOnlySpan<float> mid = _mid.Window.Block[..count], side = _side.Window.Block[..count];
        _track.Add(mid, side);
        BlockIntake.Decode(mid, side, (float)_settings.SideGain, _left.Window.Block[..count], _right.Window.Block[..count]);
        foreach (var channel in (ReadOnlySpan<ChannelScan>)[_mid, _side, _left, _right])
            channel.Scan(count, first);
        Compare(mid, side, first);
        _faults?.Add(mid, side, first);
        _slate?.Add(mid, side);
        // A block cut off by the end of the take would smear the whole spectrum; it serves only when there is no other.
        if (count == SampleWindow.Length || first == 0)
            _spectrum?.Add(_mid.Window.Block, _side.Window.Block, first);
        foreach (var channel in (ReadOnlySpan<ChannelScan>)[_mid, _side, _left, _right])
            channel.Window.Advance();
        _filled = 0;
    }

    private void Compare(ReadOnlySpan<float> mid, ReadOnlySpan<float> side, long first)
    {
        _identical = _identical && mid.SequenceEqual(side);
        for (var i = 0; _opposite && i < mid.Length; i++)
            _opposite = mid[i] == -side[i];
        var magnitudes = _magnitudes.AsSpan(0, mid.Length);
        BothMagnitudes.Add(mid, side, magnitudes);
        _bothSilent.Scan(magnitudes, first);
    }
}
