using Athwart.Figures;
using Athwart.Jobs.Storage;

namespace Athwart.Jobs.PlanRig;

/// <summary>Writes the plan's pictures.</summary>
internal static class PlanFiles
{
    private const double PngScale = 2;

    public static IReadOnlyList<string> WritePictures(string folder, RigPlan plan, bool png, bool overwrite)
    {
        Directory.CreateDirectory(folder);
        var files = new List<string>();
        foreach (var section in RigPictures.All)
        {
            var svg = StandaloneFigure.Svg(section.Draw(plan, section.Id), Palette.Light);
            files.Add(Path.Combine(folder, section.Id + ".svg"));
            WholeFile.Write(files[^1], svg, overwrite);
            if (png)
                files.Add(Png(svg, Path.Combine(folder, section.Id + ".png"), overwrite));
        }

        return files;
    }

    private static string Png(string svg, string path, bool overwrite)
    {
        WholeFile.RequireFree(path, overwrite);
        try
        {
            FigureRaster.WritePng(svg, path + ".part", PngScale);
        }
        catch (DllNotFoundException e)
        {
            throw new JobException(JobErrorKind.WrongUse, "PNG cannot be drawn here.", FigureRaster.Remedy, e);
        }

        File.Move(path + ".part", path, overwrite: true);
        return path;
    }
}
