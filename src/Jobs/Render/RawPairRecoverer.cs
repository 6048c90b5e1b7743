using System.Globalization;
using Athwart.Jobs.Storage;
using Athwart.Recordings;
using Athwart.Signals.Decoding;
using Athwart.Signals.Dither;

namespace Athwart.Jobs.Render;

/// <summary>How near a recovered raw pair is to the one that was recorded.</summary>
/// <param name="ExactFrames">Frames whose mid is exact to the bit.</param>
/// <param name="ChangedFrames">Frames of these that no decode writes: the file was changed after it was delivered.</param>
/// <param name="SideErrorSteps">The furthest the side can be off outside fades, in steps of the delivered word; half a step of rounding, seen through the gain, and rounding again.</param>
/// <param name="SampleRateHertz">The rate of the pair: that of the delivered file.</param>
public sealed record RawPairRecovery(long ExactFrames, long ChangedFrames, double SideErrorSteps, int SampleRateHertz);

/// <summary>Gets the raw pair back from a delivered stereo file: mid = (left + right) / 2, side = ((left − right) / 2 − dither) / g, trim and fades undone.</summary>
internal static class RawPairRecoverer
{
    public static (RenderResult Result, RawPairRecovery Recovery) Write(IRecording delivered, Recipe recipe, string target, RenderOptions options, CancellationToken cancellation)
    {
        Check(delivered, recipe);
        var word = WordOf(recipe);
        var metadata = new RecipeMetadata
        {
            Broadcast = recipe.Output.Metadata.Broadcast is not { } b ? null : b with { CodingHistory = b.CodingHistory + "A=PCM,M=stereo,T=Athwart; mid-side recovered\r\n" },
        };
        using var writer = WaveWriter.Create(target, RenderSink.Options(metadata, word.Format(), 2, delivered.SampleRateHertz, options));
        var worker = new RecoveryWorker(delivered, recipe, word);
        foreach (var chunk in worker.Chunks)
        {
            cancellation.ThrowIfCancellationRequested();
            worker.Write(chunk, writer);
            options.Progress?.Report(new(chunk.First + chunk.Count, delivered.FrameCount));
        }

        writer.Complete();
        var gain = Math.Abs(recipe.Treatment.SideGain * recipe.Treatment.TrimGain);
        var result = new RenderResult(target, delivered.FrameCount, worker.ExactFrames, double.NaN, options.Hash ? WholeFile.Sha256(target) : "", new FileInfo(target).Length, writer.Broadcast);
        return (result, new(worker.ExactFrames, worker.ChangedFrames, Math.Floor(0.5 + (0.5 / gain)), delivered.SampleRateHertz));
    }

    // The recording's own word, but for a delivered file that cannot tell so much.
    private static OutputWord WordOf(Recipe recipe) => recipe.Output.Word == OutputWord.Floating ? OutputWord.Floating : recipe.Source.Word;

    private static void Check(IRecording delivered, Recipe recipe)
    {
        var output = recipe.Output;
        Require(output.Kind == RenderKind.Stereo, "the recipe makes a mono file, which holds no side");
        Require(recipe.Treatment.SideGain != 0, "the recipe decodes without any side, so none can be got back");
        Require(delivered.ChannelCount == 2, $"the delivered file has {delivered.ChannelCount} channels, not 2; choose the stereo file of this recipe");
        Require(
            delivered.SampleRateHertz == output.SampleRateHertz && delivered.Format == output.Word.Format(),
            string.Create(CultureInfo.InvariantCulture, $"the delivered file is {delivered.Format} at {delivered.SampleRateHertz} Hz, the recipe makes {output.Word.Format()} at {output.SampleRateHertz} Hz; choose the stereo file of this recipe"));
    }

    private static void Require(bool kept, string message)
    {
        if (!kept)
            throw new RenderException(RenderErrorKind.Request, char.ToUpperInvariant(message[0]) + message[1..] + ".");
    }
}

/// <summary>Recovers chunks in order.</summary>
internal sealed class RecoveryWorker
{
    private readonly IRecording _delivered;
    private readonly RenderPlan _plan;
    private readonly PlanarBlock<int> _steps;
    private readonly PlanarBlock<double> _samples = new(2, RenderChunk.Frames);
    private readonly PlanarBlock<float> _floats = new(2, RenderChunk.Frames);
    private readonly double[] _dither = new double[RenderChunk.Frames];
    private readonly OutputWord _word;

    public RecoveryWorker(IRecording delivered, Recipe recipe, OutputWord word)
    {
        _delivered = delivered;
        _word = word;
        _plan = RenderPlan.ForRecovery(recipe, delivered);
        _steps = new(2, RenderChunk.Frames);
    }

    public long ExactFrames { get; private set; }

    public long ChangedFrames { get; private set; }

    public IEnumerable<RenderChunk> Chunks => _plan.Chunks();

    public void Write(RenderChunk chunk, WaveWriter writer)
    {
        if (chunk.Exact)
            Exact(chunk.First, chunk.Count);
        else
            General(chunk.First, chunk.Count);
        if (_word == OutputWord.Floating)
            writer.Write(_floats);
        else
            writer.Write(_steps);
    }

    private void Exact(long first, int count)
    {
        _delivered.Read(first, count, _steps);
        Span<int> mid = _steps.Channel(0), side = _steps.Channel(1);
        ChangedFrames += ExactMidSide.Recover(mid, side, _plan.SideGain, _plan.ProductDither, _plan.DitherOrigin + first, mid, side);
        ExactFrames += count;
        for (var n = 0; n < count && _plan.ExactShift > 0; n++)
        {
            mid[n] >>= _plan.ExactShift;
            side[n] = (int)Math.Round(Math.ScaleB(side[n], -_plan.ExactShift), MidpointRounding.ToEven);
        }

        Hold(side);
    }

    private void General(long first, int count)
    {
        _delivered.Read(first, count, _samples);
        Span<double> left = _samples.Channel(0), right = _samples.Channel(1);
        Array.Clear(_dither);
        if (_plan.OutputBits > 0)
            _plan.Dither.Fill(_plan.DitherOrigin + first, _dither.AsSpan(0, count));
        var step = _plan.OutputBits > 0 ? Math.ScaleB(1, 1 - _plan.OutputBits) : 0;
        for (var n = 0; n < count; n++)
        {
            // Fades are undone where there was no change of rate; where nothing is left of the sound, nothing comes back.
            var gain = _plan.Treatment.TrimGain * (_plan.Converter is null ? _plan.FadeAt(first + n) : 1);
            double middle = (left[n] + right[n]) / 2, difference = ((left[n] - right[n]) / 2) - (_dither[n] * step);
            left[n] = gain > 0 ? middle / gain : 0;
            right[n] = gain > 0 ? difference / (gain * _plan.SideGain) : 0;
        }

        Round(count);
    }

    private void Round(int count)
    {
        _steps.Length = count;
        _floats.Length = count;
        for (var c = 0; c < 2; c++)
        {
            if (_word == OutputWord.Floating)
                Quantizer.ToSingle(_samples.Channel(c), _floats.Channel(c));
            else
                Quantizer.Quantize(_samples.Channel(c), _word.Format().ContainerBits, null, 0, _steps.Channel(c));
        }
    }

    private void Hold(Span<int> side)
    {
        var ceiling = (1L << (_word.Format().ContainerBits - 1)) - 1;
        foreach (ref var value in side)
            value = (int)Math.Clamp(value, -ceiling - 1, ceiling);
    }
}
