using Athwart.Jobs.Shape;
using Athwart.Recordings;
using Athwart.Signals.Decoding;
using Athwart.Signals.Dither;

namespace Athwart.Jobs.Render;

/// <summary>Computes chunks with buffers of its own; one thread at a time.</summary>
internal sealed class ChunkWorker
{
    private readonly IRecording _source;
    private readonly RenderPlan _plan;
    private readonly int _inputCapacity;
    private PlanarBlock<int>? _words;
    private PlanarBlock<double>? _read;
    private PlanarBlock<double>? _pair;
    private PlanarBlock<double>? _converted;

    public ChunkWorker(IRecording source, RenderPlan plan)
    {
        _source = source;
        _plan = plan;
        _inputCapacity = plan.InputCapacity;
        if (plan.IsTreated)
        {
            _pair = new(2, _inputCapacity);
            Fresh = plan.Converter is null ? _pair : new(2, _inputCapacity);
        }

        Steps = new(plan.OutputChannels, plan.OutputBits > 0 ? RenderChunk.Frames : 0);
        Floats = new(plan.OutputChannels, plan.OutputBits > 0 ? 0 : RenderChunk.Frames);
    }

    /// <summary>The last chunk of an integer output; held within the word if <see cref="Peak"/> says that it does not fit.</summary>
    public PlanarBlock<int> Steps { get; }

    /// <summary>The last chunk of a float output.</summary>
    public PlanarBlock<float> Floats { get; }

    /// <summary>What the last chunk reached, in steps of an integer output.</summary>
    public QuantizedPeak Peak { get; private set; }

    /// <summary>Frames of the treated pair that no chunk before needed; null where there are no steps.</summary>
    public PlanarBlock<double>? Fresh { get; }

    /// <summary>One part of the work before <see cref="Render"/> or <see cref="Compute"/>; every part sees the chunks in order.</summary>
    public void Treat(TreatedFeed feed, int part, RenderChunk chunk) => feed.Run(part, Fresh!, chunk, _pair!);

    /// <summary>Renders a chunk into <see cref="Steps"/> or <see cref="Floats"/>.</summary>
    public void Render(RenderChunk chunk)
    {
        if (chunk.Exact && _plan.IsTreated)
            RenderTreatedSide(chunk);
        else if (chunk.Exact)
            RenderExact(chunk);
        else
            RenderGeneral(chunk);
    }

    /// <summary>The chunk before it is quantised: left and right, or the mid alone; full scale ±1.</summary>
    public PlanarBlock<double> Compute(RenderChunk chunk)
    {
        var (from, to) = _plan.InputRange(chunk);
        var samples = Treated(from, (int)(to - from));
        return _plan.Converter is null ? samples : Converted(samples, from, chunk);
    }

    private void RenderExact(RenderChunk chunk)
    {
        _words ??= new(_source.ChannelCount, _inputCapacity);
        ReadAll(_source.Read(_plan.Source.FromFrame + chunk.First, chunk.Count, _words), chunk.Count);
        var mid = _words.Channel(_plan.MidChannel);
        Steps.Length = chunk.Count;
        if (_plan.Output.Kind == RenderKind.Mono)
        {
            Shift(mid, _plan.ExactShift);
            mid.CopyTo(Steps.Channel(0));
            Peak = QuantizedPeak.None;
            return;
        }

        var side = _words.Channel(_plan.SideChannel);
        Shift(mid, _plan.ExactShift);
        Shift(side, _plan.ExactShift);
        var peak = ExactMidSide.Decode(mid, side, _plan.SideGain, _plan.ProductDither, _plan.DitherOrigin + chunk.First, Steps.Channel(0), Steps.Channel(1));
        Peak = new(peak.Lowest, peak.Highest, peak.Fits(_plan.OutputBits) ? 0 : 1);
    }

    // The mid is in the words it was recorded in; only g·side is rounded, and the fold is the mid to the bit.
    private void RenderTreatedSide(RenderChunk chunk)
    {
        _pair!.Length = chunk.Count;
        Steps.Length = chunk.Count;
        Span<double> mid = _pair.Channel(0), side = _pair.Channel(1);
        Span<int> left = Steps.Channel(0), right = Steps.Channel(1);
        foreach (ref var sample in side)
            sample *= _plan.SideGain;
        Quantizer.Quantize(mid, _plan.OutputBits, null, 0, left);
        var beyond = Quantizer.Quantize(side, _plan.OutputBits, _plan.ProductDither, _plan.DitherOrigin + chunk.First, right);
        var peak = ExactMidSide.Decode(left, right, 1, null, 0, left, right);
        Peak = beyond.Beyond > 0 ? new(2 * beyond.Lowest, 2 * beyond.Highest, beyond.Beyond) : new(peak.Lowest, peak.Highest, peak.Fits(_plan.OutputBits) ? 0 : 1);
    }

    private void RenderGeneral(RenderChunk chunk)
    {
        var samples = Compute(chunk);
        Peak = QuantizedPeak.None;
        if (_plan.OutputBits == 0)
            Floats.Length = chunk.Count;
        else
            Steps.Length = chunk.Count;
        for (var c = 0; c < samples.ChannelCount && c < _plan.OutputChannels; c++)
        {
            if (_plan.OutputBits == 0)
                Quantizer.ToSingle(samples.Channel(c), Floats.Channel(c));
            else
                Peak = Peak.And(Quantizer.Quantize(samples.Channel(c), _plan.OutputBits, c == 0 ? _plan.Dither : _plan.Dither.Opposite, _plan.DitherOrigin + chunk.First, Steps.Channel(c)));
        }
    }

    // Reads, decodes, trims and fades frames of the cut: left and right, or the mid alone.
    private PlanarBlock<double> Treated(long first, int count)
    {
        var pair = ReadPair(first, count);
        if (_plan.Output.Kind == RenderKind.Stereo)
            MidSide.Decode(pair.Channel(0), pair.Channel(1), _plan.SideGain, pair.Channel(0), pair.Channel(1));
        for (var c = 0; c < _plan.OutputChannels; c++)
            Gain(pair.Channel(c), first);
        return pair;
    }

    // Channel 0 receives the mid and channel 1, for stereo, the side.
    private PlanarBlock<double> ReadPair(long first, int count)
    {
        if (_plan.IsTreated)
            return Finite(_pair!, first);
        _pair ??= new(_plan.OutputChannels, _inputCapacity);
        _pair.Length = count;
        if (count == 0)
            return _pair;
        if (_plan.SourceFormat.IsInteger)
            ReadSteps(first, count, _pair);
        else
            ReadFloats(first, count, _pair);
        return _pair;
    }

    private void ReadSteps(long first, int count, PlanarBlock<double> pair)
    {
        _words ??= new(_source.ChannelCount, _inputCapacity);
        ReadAll(_source.Read(_plan.Source.FromFrame + first, count, _words), count);
        for (var c = 0; c < pair.ChannelCount; c++)
            Quantizer.ToSamples(_words.Channel(c == 0 ? _plan.MidChannel : _plan.SideChannel), _plan.SourceFormat.ContainerBits, pair.Channel(c));
    }

    private void ReadFloats(long first, int count, PlanarBlock<double> pair)
    {
        _read ??= new(_source.ChannelCount, _inputCapacity);
        ReadAll(_source.Read(_plan.Source.FromFrame + first, count, _read), count);
        for (var c = 0; c < pair.ChannelCount; c++)
            _read.Channel(c == 0 ? _plan.MidChannel : _plan.SideChannel).CopyTo(pair.Channel(c));
    }

    // Samples went into the steps as numbers; a step that makes something else of them must not be heard.
    private PlanarBlock<double> Finite(PlanarBlock<double> pair, long first)
    {
        for (var c = 0; c < 2; c++)
        {
            foreach (var sample in pair.Channel(c))
            {
                if (!double.IsFinite(sample))
                    throw new RenderException(RenderErrorKind.NotANumber, FormattableString.Invariant($"The steps make samples that are no numbers near frame {_plan.Source.FromFrame + first}: the recording is far beyond full scale there, or a gain is far too high. Lower the gains of the treatment."));
            }
        }

        return pair;
    }

    private PlanarBlock<double> Converted(PlanarBlock<double> input, long first, RenderChunk chunk)
    {
        _converted ??= new(_plan.OutputChannels, RenderChunk.Frames);
        _converted.Length = chunk.Count;
        if (_plan.Output.Kind == RenderKind.Mono)
            _plan.Converter!.Convert(input.Channel(0), first, chunk.First, _converted.Channel(0));
        else
            _plan.Converter!.Convert(input.Channel(0), input.Channel(1), first, chunk.First, _converted.Channel(0), _converted.Channel(1));
        return _converted;
    }

    private void Gain(Span<double> samples, long first)
    {
        var treatment = _plan.Treatment;
        if (treatment.TrimGain != 1)
        {
            foreach (ref var sample in samples)
                sample *= treatment.TrimGain;
        }

        for (var n = 0; n < samples.Length && first + n < treatment.FadeInFrames; n++)
            samples[n] *= _plan.FadeAt(first + n);
        var fadeOut = Math.Max(0, _plan.CutLength - treatment.FadeOutFrames - first);
        for (var n = fadeOut; n < samples.Length; n++)
            samples[(int)n] *= _plan.FadeAt(first + n);
    }

    private static void Shift(Span<int> steps, int bits)
    {
        if (bits == 0)
            return;
        foreach (ref var step in steps)
            step <<= bits;
    }

    private static void ReadAll(int read, int wanted)
    {
        if (read != wanted)
            throw new RenderException(RenderErrorKind.Source, $"The recording gave {read} frames where {wanted} were wanted; it became shorter while it was read. Copy it again.");
    }
}
