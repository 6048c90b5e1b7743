using Athwart.Jobs.Render;
using Athwart.Signals.FixedMath;

namespace Athwart.Jobs.Shape;

/// <summary>Renders a piece of a take with a treatment to a file, to be listened to.</summary>
public static class TryJob
{
    /// <summary>Renders it; 32-bit float never overflows, so that nothing is refused while a sound is looked for.</summary>
    /// <param name="request">Which take and treatment.</param>
    /// <param name="target">The file to write.</param>
    /// <param name="overwrite">Whether a file of that name may be replaced.</param>
    /// <param name="cancellation">Stops between chunks and leaves nothing behind.</param>
    /// <exception cref="JobException">Something named is not there, or the file is.</exception>
    public static (ShapedTake Shaped, RenderResult Result) Run(ShapeRequest request, string target, bool overwrite, CancellationToken cancellation)
    {
        if (!overwrite && File.Exists(target))
            throw new JobException(JobErrorKind.Refused, $"'{target}' is there already.", "Name another file with --out, or give --overwrite.");
        var shaped = ShapedTake.Open(request, cancellation);
        var (take, roles) = (shaped.Take, shaped.Roles);
        var recipe = new Recipe
        {
            Program = ProgramName.WithVersion,
            Source = RecipeSources.From(take, roles.MidChannel + 1, (roles.SideChannel ?? roles.MidChannel) + 1) with { InvertSide = roles.SideInverted, FromFrame = shaped.From, ToFrame = shaped.To },
            Treatment = new()
            {
                Name = shaped.Treated.Name,
                Steps = shaped.Treated.Steps,
                SideLevelDecibels = double.IsNegativeInfinity(shaped.SideLevel.Value) ? null : shaped.SideLevel.Value,
                SideGain = FixedGain.AmplitudeRatio(shaped.SideLevel.Value),
            },
            Output = new() { SampleRateHertz = take.SampleRateHertz, Word = OutputWord.Floating, File = target },
        };
        recipe = recipe with { Output = recipe.Output with { Metadata = StereoMetadata.For(take, recipe) } };
        using var source = take.Open();
        return (shaped, RenderEngine.Render(source, recipe, target, new() { Overwrite = overwrite, Durable = false }, cancellation));
    }
}
