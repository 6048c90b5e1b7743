namespace Athwart.Metering.Slate;

/// <summary>Listens to the head of a take for an announcing voice; after that it costs nothing.</summary>
/// <remarks>Keeps 40 s of both channels at about 10 kHz, below 20 kHz at the most: some megabytes, whatever the length of the take.</remarks>
internal sealed class SlateScan(int sampleRateHertz)
{
    private const double HeadSeconds = 40, FrameSeconds = 0.01, WindowSeconds = 0.04;
    private const double LowestPitch = 80, HighestPitch = 300;
    private readonly VoiceBand _voice = new(sampleRateHertz);
    private readonly long _most = (long)(HeadSeconds * sampleRateHertz);
    private long _seen;

    /// <summary>Takes the next block.</summary>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side)
    {
        var take = (int)Math.Min(mid.Length, _most - _seen);
        if (take <= 0)
            return;
        _voice.Add(mid[..take], side[..take]);
        _seen += take;
    }

    /// <summary>What the head says.</summary>
    public SlateHead Complete()
    {
        var rate = (double)sampleRateHertz / _voice.Factor;
        var (mid, side) = (HighPass(_voice.Mid, rate), HighPass(_voice.Side, rate));
        var low = Slow(mid);
        var frames = new List<VoiceFrame>();
        for (var n = 0; ; n++)
        {
            var (from, length) = ((int)(n * FrameSeconds * rate), (int)(WindowSeconds * rate));
            if (from + length > mid.Length)
                break;
            var (m, s) = (Level(mid.AsSpan(from, length)), Level(side.AsSpan(from, length)));
            var (voicing, pitch) = m > -90 ? Pitch(low, from / 4, length / 4, rate / 4) : (0, 0);
            frames.Add(new(m, s, voicing, pitch));
        }

        return new(frames, FrameSeconds);
    }

    private static double Level(ReadOnlySpan<float> samples)
    {
        var sum = 0.0;
        foreach (var sample in samples)
            sum += (double)sample * sample;
        return 10 * Math.Log10((sum / samples.Length) + 1e-16);
    }

    /// <summary>Takes out what lies below 100 Hz, such as wind and the ground.</summary>
    private static float[] HighPass(IReadOnlyList<float> samples, double rate)
    {
        var pole = Math.Exp(-2 * Math.PI * 100 / rate);
        var (kept, last, held) = (new float[samples.Count], 0.0, 0.0);
        for (var i = 0; i < kept.Length; i++)
        {
            held = (pole * held) + ((1 + pole) / 2 * (samples[i] - last));
            last = samples[i];
            kept[i] = (float)held;
        }

        return kept;
    }

    /// <summary>Means of four: pitch needs no more than 1 kHz.</summary>
    private static float[] Slow(float[] samples)
    {
        var slow = new float[samples.Length / 4];
        for (var i = 0; i < slow.Length; i++)
            slow[i] = (samples[4 * i] + samples[(4 * i) + 1] + samples[(4 * i) + 2] + samples[(4 * i) + 3]) / 4;
        return slow;
    }

    /// <summary>The period at which the stretch is most alike to what follows it: normalised autocorrelation, refined by a parabola.</summary>
    private static (double Voicing, double Pitch) Pitch(float[] samples, int from, int length, double rate)
    {
        var (shortest, longest) = ((int)(rate / HighestPitch), (int)Math.Ceiling(rate / LowestPitch));
        if (from + length + longest >= samples.Length)
            return (0, 0);
        var likeness = new double[longest + 2];
        for (var lag = shortest - 1; lag <= longest + 1 && from + length + lag <= samples.Length; lag++)
            likeness[lag] = Likeness(samples.AsSpan(from, length), samples.AsSpan(from + lag, length));
        var best = 0;
        for (var lag = shortest; lag <= longest; lag++)
        {
            // The first of several periods alike is the pitch.
            if (likeness[lag] >= likeness[lag - 1] && likeness[lag] >= likeness[lag + 1] && (best == 0 || likeness[lag] > likeness[best] + 0.05))
                best = lag;
        }

        if (best == 0)
            return (0, 0);
        var (a, b, c) = (likeness[best - 1], likeness[best], likeness[best + 1]);
        var bend = a - (2 * b) + c;
        return (Math.Max(0, b), rate / (best + (bend < 0 ? (a - c) / (2 * bend) : 0)));
    }

    private static double Likeness(ReadOnlySpan<float> a, ReadOnlySpan<float> b)
    {
        var (ab, aa, bb) = (0.0, 1e-20, 1e-20);
        for (var i = 0; i < a.Length; i++)
            (ab, aa, bb) = (ab + ((double)a[i] * b[i]), aa + ((double)a[i] * a[i]), bb + ((double)b[i] * b[i]));
        return ab / Math.Sqrt(aa * bb);
    }
}
