using Athwart.Signals.Fourier;

namespace Athwart.Metering.LineUp;

/// <summary>Noise of each channel where nothing is played: power spectra of Hann windows, steady stretches only.</summary>
internal sealed class QuietParts
{
    private const double SegmentMilliseconds = 170;
    private const double AfterSoundMilliseconds = 700;
    private const double BeforeSoundMilliseconds = 60;
    private const double EdgeMilliseconds = 150;
    private const int FewestSegments = 3;
    private const double SteadyRatio = 10;
    private const double LowestHertz = 20;
    private const double LeastSignalOverNoise = 10;
    private static readonly double AtOneKilohertz = Curve(1000);

    private readonly SoundPair _pair;
    private readonly FourierTransform _transform;
    private readonly float[] _hann;
    private readonly List<double[]>[] _segments = [[], []];

    public QuietParts(SoundPair pair, IReadOnlyList<int> onsets)
    {
        _pair = pair;
        _transform = new((int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)pair.Frames(SegmentMilliseconds)));
        _hann = new float[_transform.Length];
        for (var i = 0; i < _hann.Length; i++)
            _hann[i] = (float)(0.5 - (0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / _hann.Length)));
        var edge = pair.Frames(EdgeMilliseconds);
        for (var at = edge; at + _hann.Length <= pair.Length - edge; at += _hann.Length / 2)
        {
            if (!onsets.Any(o => at + _hann.Length > o - pair.Frames(BeforeSoundMilliseconds) && at < o + pair.Frames(AfterSoundMilliseconds)))
                Add(at);
        }
    }

    /// <summary>Measures a channel.</summary>
    /// <param name="channel">0 or 1.</param>
    /// <param name="sounds">The sounds that count for the low end.</param>
    public ChannelNoiseMeasure Measure(int channel, IEnumerable<int> sounds)
    {
        var loudness = Robust.Median(_segments[channel].Select(s => s.Sum()));
        var steady = _segments[channel].Where(s => s.Sum() <= SteadyRatio * loudness).ToList();
        if (steady.Count < FewestSegments)
        {
            var doubt = Estimate.CannotTell($"there are no {FewestSegments * SegmentMilliseconds / 2000:0.#} s of quiet, 0.7 s after any sound");
            return new() { Level = doubt, WeightedLevel = doubt, Bands = [], LowestHertz = doubt };
        }

        var mean = Enumerable.Range(0, _transform.Length / 2).Select(k => steady.Average(s => s[k])).ToArray();
        // Twice the power of Hann segments that overlap by half counts about once: the level of n of them is sure to 4.34/√(n·bins/2) dB and wanders with the place.
        var wander = Math.Max(0.2, 2 * Robust.Deviation(steady.Select(s => DirectSound.Decibels(s.Sum())).ToList()) / Math.Sqrt(steady.Count));
        return new()
        {
            Level = Level(Band(mean, LowestHertz, _pair.Rate / 2.0), wander),
            WeightedLevel = Level(Weighted(mean), wander),
            Bands = ThirdOctave.Between(17, _pair.Rate / 2.0).Select(b => new NoiseBand(ThirdOctave.NominalHertz(b), DirectSound.Decibels(Band(mean, ThirdOctave.From(b), ThirdOctave.To(b))))).ToList(),
            LowestHertz = Lowest(channel, mean, sounds),
        };
    }

    private static Estimate Level(double power, double uncertainty) =>
        power > 0 ? Estimate.Of(DirectSound.Decibels(power), uncertainty) : Estimate.CannotTell("the quiet parts are digital silence");

    private void Add(int at)
    {
        for (var c = 0; c < 2; c++)
            _segments[c].Add(Spectrum(_pair.Whole[c].AsSpan(at, _hann.Length)));
    }

    /// <summary>Mean square by bins: they sum to that of the segment.</summary>
    private double[] Spectrum(ReadOnlySpan<float> samples)
    {
        var (real, imaginary) = (new float[_hann.Length], new float[_hann.Length]);
        for (var i = 0; i < samples.Length; i++)
            real[i] = samples[i] * _hann[i];
        _transform.Forward(real, imaginary);
        var power = new double[_hann.Length / 2];
        // Both halves of the spectrum, over N² and over the mean square of the window, 3/8.
        var scale = 2 / (0.375 * _hann.Length * _hann.Length);
        for (var k = 1; k < power.Length; k++)
            power[k] = scale * (((double)real[k] * real[k]) + ((double)imaginary[k] * imaginary[k]));
        return power;
    }

    /// <summary>The power between two frequencies, bins at the edges in part.</summary>
    private double Band(double[] power, double from, double to)
    {
        var width = (double)_pair.Rate / _transform.Length;
        var sum = 0.0;
        for (var k = Math.Max(1, (int)(from / width)); k < Math.Min(power.Length, (to / width) + 1); k++)
            sum += power[k] * Math.Clamp(Math.Min(k + 0.5, to / width) - Math.Max(k - 0.5, from / width), 0, 1);
        return sum;
    }

    private double Weighted(double[] power)
    {
        var sum = 0.0;
        for (var k = 1; k < power.Length; k++)
            sum += power[k] * AWeighting((double)k * _pair.Rate / _transform.Length);
        return sum;
    }

    /// <summary>The A weighting as a power ratio, 1 at 1 kHz.</summary>
    /// <remarks>Source: IEC 61672-1:2013, Annex E, as quoted in docs/sources.md#iec61672.</remarks>
    private static double AWeighting(double hertz)
    {
        var ratio = Curve(hertz) / AtOneKilohertz;
        return ratio * ratio;
    }

    private static double Curve(double f) => 12194.217 * 12194.217 * Math.Pow(f, 4)
        / (((f * f) + (20.598997 * 20.598997)) * Math.Sqrt(((f * f) + (107.65265 * 107.65265)) * ((f * f) + (737.86223 * 737.86223))) * ((f * f) + (12194.217 * 12194.217)));

    private Estimate Lowest(int channel, double[] noise, IEnumerable<int> sounds)
    {
        var spectra = sounds
            .Select(o => o - (_hann.Length / 2) + _pair.Frames(20))
            .Where(at => at >= 0 && at + _hann.Length <= _pair.Length)
            .Select(at => Spectrum(_pair.Whole[channel].AsSpan(at, _hann.Length)))
            .ToList();
        if (spectra.Count == 0)
            return Estimate.CannotTell("no sound stands out in this channel");
        int? lowest = null;
        foreach (var band in ThirdOctave.Between(17, Math.Min(4000, _pair.Rate / 2.0)).OrderDescending())
        {
            var (from, to) = (ThirdOctave.From(band), ThirdOctave.To(band));
            var heard = Robust.Median(spectra.Select(s => Band(s, from, to)));
            if (heard < Math.Pow(10, LeastSignalOverNoise / 10) * Band(noise, from, to))
                break;
            lowest = band;
        }

        return lowest is { } low
            ? Estimate.Of(ThirdOctave.NominalHertz(low), ThirdOctave.To(low) - ThirdOctave.From(low))
            : Estimate.CannotTell("the sounds do not stand 10 dB out of the noise at 4 kHz");
    }
}
