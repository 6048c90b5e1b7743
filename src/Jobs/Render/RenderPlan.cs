using Athwart.Jobs.Cut;
using Athwart.Jobs.Shape;
using Athwart.Recordings;
using Athwart.Signals.Dither;
using Athwart.Signals.Fades;
using Athwart.Signals.Resampling;
using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Render;

/// <summary>A recipe applied to one recording: everything a chunk needs to know, fixed before the first one.</summary>
internal sealed class RenderPlan
{
    private readonly FadeCurve _fadeIn, _fadeOut;

    private RenderPlan(Recipe recipe, SampleFormat sourceFormat)
    {
        Treatment = recipe.Treatment;
        Source = recipe.Source;
        Output = recipe.Output;
        SourceFormat = sourceFormat;
        (_fadeIn, _fadeOut) = (FadeWords.Parse(Treatment.FadeInCurve), FadeWords.Parse(Treatment.FadeOutCurve));
        (MidChannel, SideChannel, InvertSide) = (Source.MidChannel - 1, Source.SideChannel - 1, Source.InvertSide);
        Steps = Fold(recipe.Treatment.Steps ?? []);
        CutLength = TreatedChain.LengthAfter(Steps, recipe.Source.ToFrame - recipe.Source.FromFrame);
        Converter = Output.SampleRateHertz == Source.SampleRateHertz ? null : new SampleRateConverter(Source.SampleRateHertz, Output.SampleRateHertz);
        OutputFrames = Converter?.OutputLength(CutLength) ?? CutLength;
        // Dither is numbered by the take's own frames, so that a cut has the dither of the whole.
        DitherOrigin = Converter?.OutputLength(Source.FromFrame) ?? Source.FromFrame;
    }

    public RecipeSource Source { get; }

    public RecipeTreatment Treatment { get; }

    public RecipeOutput Output { get; }

    public SampleFormat SourceFormat { get; }

    public SampleRateConverter? Converter { get; }

    /// <summary>Frames of the cut as treated, at the take's rate.</summary>
    public long CutLength { get; }

    public long OutputFrames { get; }

    public long DitherOrigin { get; }

    public int OutputChannels => Output.Kind == RenderKind.Stereo ? 2 : 1;

    /// <summary>The steps that are left to do: exchanged channels and a turned side at the beginning are already in the fields below.</summary>
    public IReadOnlyList<TreatmentStep> Steps { get; }

    public bool IsTreated => Steps.Count > 0;

    /// <summary>The channel of the mid, from 0.</summary>
    public int MidChannel { get; private set; }

    /// <summary>The channel of the side, from 0; the mid's where the take has no side.</summary>
    public int SideChannel { get; private set; }

    public bool InvertSide { get; private set; }

    public bool HasSide => MidChannel != SideChannel;

    /// <summary>g; where the pair is decoded as it was recorded with the sign that turns an inverted side.</summary>
    public double SideGain => InvertSide && !IsTreated ? -Treatment.SideGain : Treatment.SideGain;

    /// <summary>Frames of the cut that one chunk can need.</summary>
    public int InputCapacity => Converter is null
        ? RenderChunk.Frames
        : (int)(((long)RenderChunk.Frames * Converter.FromHertz / Converter.ToHertz) + (2 * Converter.Reach) + 2);

    /// <summary>The bits of an integer output; 0 for float.</summary>
    public int OutputBits => Output.Word.Format() is { IsInteger: true, ContainerBits: var bits } ? bits : 0;

    /// <summary>Dither of the product, and of the left or only channel.</summary>
    public TriangularDither Dither => new(Output.Seed, 0);

    /// <summary>Dither of the product on the exact path; a whole gain makes whole products and needs none.</summary>
    public TriangularDither? ProductDither => !IsTreated && SideGain == Math.Floor(SideGain) ? null : Dither;

    /// <summary>Whether unfaded frames keep the mid to the bit: integers to integers at least as long, same rate, no trim, and no step that changes the mid.</summary>
    public bool IsExact => SourceFormat.IsInteger && OutputBits >= SourceFormat.ContainerBits && Converter is null && Treatment.TrimGain == 1 && Steps.All(KeepsMid);

    /// <summary>How far steps of the source are shifted to be steps of the output on the exact path.</summary>
    public int ExactShift => OutputBits - SourceFormat.ContainerBits;

    public static RenderPlan Create(Recipe recipe, IRecording source)
    {
        RecipeChecks.Checked(recipe, "the recipe");
        var (s, o) = (recipe.Source, recipe.Output);
        var highest = o.Kind == RenderKind.Mono ? s.MidChannel : Math.Max(s.MidChannel, s.SideChannel);
        Require(highest <= source.ChannelCount, $"channel {highest} was asked for; the recording has {source.ChannelCount}. Choose mid and side among them");
        Require(s.ToFrame <= source.FrameCount, $"the cut ends at frame {s.ToFrame}; the recording has {source.FrameCount}");
        Require(s.SampleRateHertz == source.SampleRateHertz, $"the recipe is for {s.SampleRateHertz} Hz; the recording has {source.SampleRateHertz} Hz");
        Require(
            o.SampleRateHertz == s.SampleRateHertz || SampleRateConverter.Supports(s.SampleRateHertz, o.SampleRateHertz),
            $"there is no conversion from {s.SampleRateHertz} to {o.SampleRateHertz} Hz; the rates are 44100, 48000, 88200, 96000, 176400 and 192000 Hz. Keep the recording's rate");
        return new(recipe, source.Format);
    }

    /// <summary>The plan that made a delivered file, without its source.</summary>
    public static RenderPlan ForRecovery(Recipe recipe, IRecording delivered)
    {
        RecipeChecks.Checked(recipe, "the recipe");
        var plan = new RenderPlan(recipe, recipe.Source.Word.Format());
        Require(recipe.Source.Loop is null, "the end of a loop is led over into its start, which cannot be undone; the raw pair was delivered beside it");
        Require(!plan.IsTreated, "the recipe treats mid and side by steps that cannot be undone; the raw pair of an effect was delivered beside it, or cut it from the take again");
        Require(delivered.FrameCount == plan.OutputFrames, $"the delivered file has {delivered.FrameCount} frames, the recipe makes {plan.OutputFrames}; choose the stereo file of this recipe");
        return plan;
    }

    /// <summary>The frames of the cut that a chunk needs; outside the cut there is silence.</summary>
    public (long From, long To) InputRange(RenderChunk chunk)
    {
        var (from, to) = Converter?.InputRange(chunk.First, chunk.Count) ?? (chunk.First, chunk.First + chunk.Count);
        return (Math.Max(0, from), Math.Min(CutLength, to));
    }

    /// <summary>The gain of the fades at a frame of the cut; see <see cref="FadeCurves"/>.</summary>
    public double FadeAt(long frame)
    {
        var gain = 1.0;
        if (frame < Treatment.FadeInFrames)
            gain = FadeCurves.Gain(_fadeIn, frame, Treatment.FadeInFrames);
        var left = CutLength - 1 - frame;
        return left < Treatment.FadeOutFrames ? gain * FadeCurves.Gain(_fadeOut, left, Treatment.FadeOutFrames) : gain;
    }

    /// <summary>The output in chunks, in order; on the exact path faded frames are in chunks of their own.</summary>
    public IEnumerable<RenderChunk> Chunks()
    {
        long fadeInEnd = IsExact ? Treatment.FadeInFrames : 0, fadeOutStart = IsExact ? CutLength - Treatment.FadeOutFrames : OutputFrames;
        for (long n = 0; n < OutputFrames;)
        {
            var end = n < fadeInEnd ? fadeInEnd : n < fadeOutStart ? fadeOutStart : OutputFrames;
            var count = (int)Math.Min(RenderChunk.Frames, end - n);
            yield return new(n, count, IsExact && n >= fadeInEnd && n < fadeOutStart);
            n += count;
        }
    }

    // An exchange of the channels, or a turned side, is no work when nothing was done before it: the rest may then stay exact.
    private IReadOnlyList<TreatmentStep> Fold(IReadOnlyList<TreatmentStep> steps)
    {
        if (Output.Kind == RenderKind.Mono && steps.All(KeepsMid))
            return [];
        var folded = 0;
        for (; HasSide && folded < steps.Count; folded++)
        {
            if (steps[folded].Settings is Invert { Roles: PairRoles.Side })
                InvertSide = !InvertSide;
            else if (steps[folded].Settings is Swap && !InvertSide)
                (MidChannel, SideChannel) = (SideChannel, MidChannel);
            else
                break;
        }

        return folded == 0 ? steps : [.. steps.Skip(folded)];
    }

    private static bool KeepsMid(TreatmentStep step) => !step.Kind.Changes(step.Settings).HasFlag(PairRoles.Mid);

    private static void Require(bool kept, string message)
    {
        if (!kept)
            throw new RenderException(RenderErrorKind.Request, char.ToUpperInvariant(message[0]) + message[1..] + ".");
    }
}

/// <summary>A stretch of output frames that one thread computes.</summary>
/// <param name="First">The first output frame.</param>
/// <param name="Count">Frames, up to <see cref="Frames"/>.</param>
/// <param name="Exact">Whether it keeps the mid to the bit.</param>
internal readonly record struct RenderChunk(long First, int Count, bool Exact)
{
    /// <summary>Frames in a full chunk; whole groups of the rate converter. The output does not depend on it.</summary>
    public const int Frames = 12_288;
}
