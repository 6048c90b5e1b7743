using System.Globalization;
using Athwart.Quantities;
using Athwart.Recordings;
using Athwart.Signals.Dither;

namespace Athwart.Jobs.Render;

/// <summary>Writes rendered chunks in order, and keeps an overload from ever becoming a file.</summary>
internal sealed class RenderSink : IDisposable
{
    private readonly RenderPlan _plan;
    private readonly RenderOptions _options;
    private readonly WaveWriter _writer;
    private readonly string _target;
    private readonly float[] _left = [];
    private readonly float[] _right = [];
    private QuantizedPeak _peak = QuantizedPeak.None;
    private double _floatPeak;
    private long _done;
    private int _chunks;

    public RenderSink(RenderPlan plan, string target, RenderOptions options)
    {
        _plan = plan;
        _options = options;
        _target = target;
        _writer = WaveWriter.Create(target, Options(plan.Output.Metadata, plan.Output.Word.Format(), plan.OutputChannels, plan.Output.SampleRateHertz, options).Looped(plan));
        if (options.Tap is not null && plan.OutputBits > 0)
            (_left, _right) = (new float[RenderChunk.Frames], new float[RenderChunk.Frames]);
    }

    public long ExactFrames { get; private set; }

    public double SamplePeak => _plan.OutputBits == 0
        ? _floatPeak
        : Math.Max(0, Math.Max(_peak.Highest, -_peak.Lowest)) / Math.ScaleB(1, _plan.OutputBits - 1);

    public static WaveWriterOptions Options(RecipeMetadata metadata, SampleFormat format, int channels, int rate, RenderOptions options)
    {
        var made = new WaveWriterOptions
        {
            ChannelCount = channels,
            SampleRateHertz = rate,
            Format = format,
            Broadcast = metadata.Broadcast?.ToBroadcast(),
            Production = metadata.Production(),
            Info = metadata.Info,
            Markers = metadata.Markers,
            Overwrite = options.Overwrite,
            Durable = options.Durable,
        };
        return options.Rf64Threshold is { } threshold ? made with { Rf64Threshold = threshold } : made;
    }

    public void Add(ChunkWorker worker, RenderChunk chunk)
    {
        _peak = _peak.And(worker.Peak);
        ExactFrames += chunk.Exact ? chunk.Count : 0;
        if (_plan.OutputBits == 0)
            AddFloats(worker.Floats);
        else if (_peak.Beyond == 0)
            AddSteps(worker.Steps);
        // After an overload nothing more is written, but the rest is still measured: the trim it would need is that of the whole.
        _done += chunk.Count;
        if (_chunks++ % 16 == 0 || _done == _plan.OutputFrames)
            _options.Progress?.Report(new(_done, _plan.OutputFrames));
    }

    public BroadcastExtension? Complete()
    {
        if (_plan.OutputBits > 0 && _peak.Beyond > 0)
            throw Overload();
        if (_options.Tap?.Complete(_writer.Broadcast) is { } broadcast)
            _writer.Broadcast = broadcast;
        _writer.Complete();
        return _writer.Broadcast;
    }

    public void Dispose() => _writer.Dispose();

    private void AddSteps(PlanarBlock<int> steps)
    {
        _writer.Write(steps);
        if (_options.Tap is null)
            return;
        var scale = (float)Math.ScaleB(1, 1 - _plan.OutputBits);
        var last = steps.ChannelCount - 1;
        for (var n = 0; n < steps.Length; n++)
        {
            _left[n] = steps.Channel(0)[n] * scale;
            _right[n] = steps.Channel(last)[n] * scale;
        }

        _options.Tap.Add(_left.AsSpan(0, steps.Length), _right.AsSpan(0, steps.Length));
    }

    private void AddFloats(PlanarBlock<float> samples)
    {
        for (var c = 0; c < samples.ChannelCount; c++)
        {
            foreach (var sample in samples.Channel(c))
                _floatPeak = Math.Max(_floatPeak, Math.Abs(sample));
        }

        _writer.Write(samples);
        _options.Tap?.Add(samples.Channel(0), samples.Channel(samples.ChannelCount - 1));
    }

    private RenderException Overload()
    {
        double ceiling = Math.ScaleB(1, _plan.OutputBits - 1), reached = Math.Max(_peak.Highest, -_peak.Lowest);
        var word = string.Create(CultureInfo.InvariantCulture, $"{_plan.OutputBits}-bit");
        if (!(reached >= ceiling) || double.IsInfinity(reached))
            return new(RenderErrorKind.NotANumber, $"{_target}: the recording holds samples that are infinite or not numbers, and a {word} word has no place for them. Write 32-bit float (f32), or check the recording.");
        // Two steps of room for dither and rounding; down to the next hundredth of a decibel.
        var trim = Math.Floor(2000 * Math.Log10((ceiling - 3) / (reached + 2))) / 100;
        var over = 20 * Math.Log10(reached / ceiling);
        return new(
            RenderErrorKind.Overload,
            string.Create(CultureInfo.InvariantCulture, $"{_target}: the {word} word overflows by {over:0.00} dB; nothing was written. Trim by {trim:0.00} dB or more, lower the side level, or write 32-bit float (f32), which never overflows."),
            new Decibels(trim));
    }
}
