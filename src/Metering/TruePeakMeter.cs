using Athwart.Quantities;

namespace Athwart.Metering;

/// <summary>The true peak of one channel by BS.1770-5 Annex 2, never below its sample peak; silence reads −∞.</summary>
/// <remarks>
/// Four phases below 80 kHz, the two inner ones at 88.2 and 96 kHz, the samples alone from 176.4 kHz on, where the under-reading is
/// as small. The answer does not depend on how the stream is cut into blocks. The values that would ring on after the last sample
/// are not looked at. Reads up to 0.69 dB low (Annex 2, Attachment 1). Not-finite samples are not allowed.
/// </remarks>
public sealed class TruePeakMeter
{
    private readonly SampleWindow _window = new();
    private readonly TruePeakScanner _scanner;
    private readonly float[] _subPeaks = new float[SampleWindow.Length / SampleWindow.SubBlock];
    private int _filled;

    /// <summary>A meter that was just reset.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The rate is not positive.</exception>
    public TruePeakMeter(int sampleRateHertz)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sampleRateHertz);
        _scanner = new(sampleRateHertz);
    }

    /// <summary>The true peak of everything so far, in dBTP.</summary>
    public DecibelsFullScale Peak
    {
        get
        {
            Flush();
            return DecibelsFullScale.FromAmplitude(_scanner.Peak);
        }
    }

    /// <summary>Meters the next block of any length.</summary>
    public void Add(ReadOnlySpan<float> samples)
    {
        while (!samples.IsEmpty)
        {
            var take = Math.Min(samples.Length, SampleWindow.Length - _filled);
            samples[..take].CopyTo(_window.Block[_filled..]);
            _filled += take;
            samples = samples[take..];
            if (_filled == SampleWindow.Length)
            {
                Flush();
                _window.Advance();
                _filled = 0;
            }
        }
    }

    /// <summary>Scans what has come in; a block scanned twice gives the same peak, so asking early does no harm.</summary>
    private void Flush()
    {
        var padded = (_filled + SampleWindow.SubBlock - 1) / SampleWindow.SubBlock * SampleWindow.SubBlock;
        _window.Block[_filled..padded].Clear();
        var peak = BlockPeaks.Fill(_window.Block[..padded], _subPeaks);
        _scanner.Scan(_window.Samples, _filled, _subPeaks, peak);
    }
}
