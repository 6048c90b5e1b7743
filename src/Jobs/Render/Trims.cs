using System.Globalization;
using Athwart.Recordings;
using Athwart.Signals.FixedMath;

namespace Athwart.Jobs.Render;

/// <summary>Turns a trim that was asked for into the gain that a recipe records.</summary>
public static class Trims
{
    /// <summary>A recipe whose trim fields answer its trim request; a first pass measures where needed.</summary>
    /// <param name="source">The take.</param>
    /// <param name="recipe">A recipe with <see cref="RecipeTreatment.Trim"/> set.</param>
    /// <param name="newMeter">Makes a meter for a sample rate in hertz, for true peak and loudness; null where neither is asked for.</param>
    /// <param name="threads">Threads, 1 or more.</param>
    /// <param name="cancellation">Stops between chunks.</param>
    /// <returns>The recipe with <see cref="RecipeTreatment.TrimDecibels"/> and <see cref="RecipeTreatment.TrimGain"/> set, in thousandths of a decibel rounded down; silence is left at 0 dB.</returns>
    /// <exception cref="RenderException">True peak or loudness was asked for without a meter.</exception>
    public static Recipe Resolve(IRecording source, Recipe recipe, Func<int, IProgrammeMeter>? newMeter, int threads, CancellationToken cancellation)
    {
        var request = recipe.Treatment.Trim;
        if (request.Kind is TrimKind.None or TrimKind.Gain)
            return WithTrim(recipe, request.Kind == TrimKind.None ? 0 : request.Target);
        var untrimmed = WithTrim(recipe, 0);
        var meter = request.Kind == TrimKind.SamplePeak ? null : newMeter?.Invoke(recipe.Output.SampleRateHertz)
            ?? throw new RenderException(RenderErrorKind.Request, "A trim to true peak or loudness needs a meter, and this program was built without one.");
        return WithTrim(recipe, Decibels(request, RenderEngine.Measure(source, untrimmed, meter, threads, cancellation), recipe.Output.Word));
    }

    private static double Decibels(TrimRequest request, ProgrammeLevels levels, OutputWord word)
    {
        var reached = request.Kind switch
        {
            TrimKind.SamplePeak => 20 * Math.Log10(levels.SamplePeak),
            TrimKind.TruePeak or TrimKind.Ceiling => levels.TruePeakDecibels,
            _ => levels.IntegratedLufs,
        };
        if (double.IsNegativeInfinity(reached))
            return 0;
        if (!double.IsFinite(reached))
            throw new RenderException(RenderErrorKind.NotANumber, "The recording holds samples that are infinite or not numbers, so no level can be measured. Check the recording.");
        var trim = request.Target - reached;
        // A peak at 0 dBFS itself lies one step beyond an integer word, and dither needs one and a half.
        if (request.Kind != TrimKind.Loudness && word.Format() is { IsInteger: true, ContainerBits: var bits })
            trim = Math.Min(trim, 20 * Math.Log10((1 - Math.ScaleB(3, 1 - bits)) / levels.SamplePeak));
        if (request.Kind == TrimKind.Ceiling)
            trim = Math.Min(trim, 0);
        return Math.Floor(trim * 1000) / 1000;
    }

    private static Recipe WithTrim(Recipe recipe, double decibels)
    {
        if (!(Math.Abs(decibels) <= 1000))
            throw new RenderException(RenderErrorKind.Request, string.Create(CultureInfo.InvariantCulture, $"A trim of {decibels} dB is beyond ±1000 dB."));
        return recipe with { Treatment = recipe.Treatment with { TrimDecibels = decibels, TrimGain = FixedGain.AmplitudeRatio(decibels) } };
    }
}
