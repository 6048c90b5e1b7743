using Athwart.Jobs.Cut;
using Athwart.Jobs.Shape;
using Athwart.Signals.Loops;

namespace Athwart.Jobs.Render;

/// <summary>The rules a recipe keeps whatever recording it meets.</summary>
internal static class RecipeChecks
{
    public static Recipe Checked(Recipe recipe, string name)
    {
        var (source, treatment) = (recipe.Source, recipe.Treatment);
        Require(source.MidChannel >= 1 && source.SideChannel >= 1, name, "source.midChannel and source.sideChannel count from 1");
        Require(recipe.Output.Kind == RenderKind.Mono || treatment.SideGain == 0 || treatment.Steps is { Count: > 0 } || source.MidChannel != source.SideChannel, name, "source.midChannel and source.sideChannel are two channels");
        Require(source.FromFrame >= 0 && source.ToFrame >= source.FromFrame, name, "source.toFrame does not lie before source.fromFrame, and neither below 0");
        Require(Math.Abs(treatment.SideGain) <= 1 << 20, name, "treatment.sideGain lies within ±2^20");
        Require(treatment.TrimGain > 0 && double.IsFinite(treatment.TrimGain), name, "treatment.trimGain is above 0");
        Require(treatment.FadeInFrames >= 0 && treatment.FadeOutFrames >= 0, name, "fades are 0 frames or more");
        Require(treatment.FadeInFrames <= TreatedChain.LengthAfter(treatment.Steps ?? [], source.ToFrame - source.FromFrame) - treatment.FadeOutFrames, name, "the fades are together no longer than the cut");
        Require(FadeWords.IsKnown(treatment.FadeInCurve) && FadeWords.IsKnown(treatment.FadeOutCurve), name, "treatment.fadeInCurve and fadeOutCurve are of: " + string.Join(", ", FadeWords.All));
        if (source.Loop is { } loop)
        {
            Require(new LoopSeam(loop.CrossfadeFrames, loop.Correlation).IsValid, name, "source.loop has a cross-fade of 1 frame or more and a correlation between 0 and 1");
            Require(loop.CrossfadeFrames <= source.ToFrame - source.FromFrame && loop.CrossfadeFrames <= source.FromFrame, name, "the cross-fade of a loop is no longer than the loop, and lies inside the take before it");
            Require(treatment.FadeInFrames == 0 && treatment.FadeOutFrames == 0, name, "a loop has no fades");
            Require(recipe.Output.SampleRateHertz == source.SampleRateHertz, name, "a loop is rendered at the rate of its take, since a conversion would not meet at its ends");
        }

        return recipe;
    }

    private static void Require(bool kept, string name, string rule)
    {
        if (!kept)
            throw new RenderException(RenderErrorKind.Recipe, $"{name}: broken rule: {rule}.");
    }
}
