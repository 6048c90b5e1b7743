using Athwart.Figures;
using Athwart.Figures.Shaping;
using Athwart.Jobs.Storage;

namespace Athwart.Jobs.Shape;

/// <summary>Pictures of what steps do, as files.</summary>
public static class StepPictures
{
    /// <summary>One SVG file a step that treats every sound alike; others follow the sound and have no response to draw.</summary>
    /// <param name="steps">The steps.</param>
    /// <param name="sampleRateHertz">The take's rate.</param>
    /// <param name="sideGain">g of the decode.</param>
    /// <param name="folder">The folder; made when it is not there.</param>
    /// <param name="overwrite">Whether files of the same names may be replaced.</param>
    /// <returns>The files.</returns>
    /// <exception cref="JobException">A file is there already.</exception>
    public static IReadOnlyList<string> Write(IReadOnlyList<TreatmentStep> steps, int sampleRateHertz, double sideGain, string folder, bool overwrite)
    {
        ArgumentNullException.ThrowIfNull(steps);
        Directory.CreateDirectory(folder);
        var files = new List<string>();
        for (var i = 0; i < steps.Count; i++)
        {
            if (steps[i].Kind.FollowsSound)
                continue;
            files.Add(Path.Combine(folder, FormattableString.Invariant($"{i + 1:00}-{steps[i].Kind.Name}.svg")));
            WholeFile.Write(files[^1], StandaloneFigure.Svg(Draw(steps[i], new(sampleRateHertz, sideGain), FormattableString.Invariant($"step-{i + 1}")), Palette.Light), overwrite);
        }

        return files;
    }

    /// <summary>The picture of a step, to be put in a page.</summary>
    /// <param name="step">A step that treats every sound alike.</param>
    /// <param name="place">Where it works.</param>
    /// <param name="id">Begins every id in the picture.</param>
    /// <param name="says">What it says, for those who cannot see it; the step in words unless said.</param>
    public static string Draw(TreatmentStep step, StepPlace place, string id, string? says = null)
    {
        ArgumentNullException.ThrowIfNull(step);
        var response = StepResponse.Measure(step, place);
        return ResponseFigure.Draw(new(id, step.Kind.Name, says ?? step.ToString()), response.Hertz, response.Mid, response.Side);
    }
}
