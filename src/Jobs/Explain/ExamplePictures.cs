using Athwart.Figures;
using Athwart.Jobs.Evidences;
using Athwart.Jobs.Storage;

namespace Athwart.Jobs.Explain;

/// <summary>A picture of what a kind of finding looks like: a made example, drawn as the evidence of a real one is.</summary>
public static class ExamplePictures
{
    private const double PngScale = 2;

    /// <summary>An svg element.</summary>
    /// <param name="kind">A kind that is explained.</param>
    /// <exception cref="JobException">There is no such kind.</exception>
    public static string Draw(string kind)
    {
        var explanation = Explanations.Of(kind) ?? throw new JobException(JobErrorKind.WrongUse, $"There is no finding '{kind}'.", "'athwart explain' lists them all.");
        return EvidencePicture.Draw(Examples.Of(explanation));
    }

    /// <summary>Writes it as an SVG file, or as PNG where the name ends so.</summary>
    /// <exception cref="JobException">There is no such kind, the file is there already, or PNG cannot be drawn here.</exception>
    public static void Write(string kind, string path, bool overwrite)
    {
        ArgumentNullException.ThrowIfNull(path);
        var svg = StandaloneFigure.Svg(Draw(kind), Palette.Light);
        if (!path.EndsWith(".png", StringComparison.OrdinalIgnoreCase))
        {
            WholeFile.Write(path, svg, overwrite);
            return;
        }

        WholeFile.RequireFree(path, overwrite);
        try
        {
            FigureRaster.WritePng(svg, path, PngScale);
        }
        catch (DllNotFoundException e)
        {
            throw new JobException(JobErrorKind.WrongUse, "PNG cannot be drawn here.", FigureRaster.Remedy, e);
        }
    }
}
