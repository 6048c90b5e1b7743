using Athwart.Jobs.Storage;
using Athwart.Recordings;

namespace Athwart.Jobs.Render;

/// <summary>From takes to the files of a recipe, and back.</summary>
public static class RecipeSources
{
    /// <summary>The source part of a recipe for a whole take; cut and channels as given.</summary>
    /// <param name="take">The take.</param>
    /// <param name="midChannel">The take's channel with the mid, from 1.</param>
    /// <param name="sideChannel">The take's channel with the side, from 1.</param>
    public static RecipeSource From(TakeDescription take, int midChannel = 1, int sideChannel = 2)
    {
        ArgumentNullException.ThrowIfNull(take);
        return new()
        {
            Take = take.Name,
            MidChannel = midChannel,
            SideChannel = sideChannel,
            ToFrame = take.FrameCount,
            SampleRateHertz = take.SampleRateHertz,
            Word = OutputWords.For(take.Format),
            Files =
            [
                .. take.Parts.Select(p => new RecipeFile
                {
                    Path = p.Path,
                    Bytes = new FileInfo(p.Path).Length,
                    FirstFrame = p.FirstFrame,
                    FrameCount = p.FrameCount,
                    FirstChannel = p.FirstChannel + 1,
                    ChannelCount = p.ChannelCount,
                }),
            ],
        };
    }

    /// <summary>A recipe ready to be kept in a folder: paths relative to it, hashes of the sources filled in where they are empty.</summary>
    /// <param name="recipe">The recipe, its paths as the program opens them.</param>
    /// <param name="folder">The folder the recipe will lie in.</param>
    public static Recipe ForFolder(Recipe recipe, string folder)
    {
        ArgumentNullException.ThrowIfNull(recipe);
        return recipe with
        {
            Source = recipe.Source with
            {
                Files = [.. recipe.Source.Files.Select(f => f with { Path = Relative(f.Path, folder), Sha256 = f.Sha256.Length > 0 ? f.Sha256 : WholeFile.Sha256(f.Path) })],
            },
            Output = recipe.Output with { File = recipe.Output.File.Length == 0 ? "" : Relative(recipe.Output.File, folder) },
        };
    }

    /// <summary>What differs between the files of a recipe and the disk: one sentence each; empty when all are as they were.</summary>
    /// <param name="recipe">The recipe.</param>
    /// <param name="folder">The folder that relative paths start from.</param>
    public static IReadOnlyList<string> Differences(Recipe recipe, string folder)
    {
        ArgumentNullException.ThrowIfNull(recipe);
        return [.. recipe.Source.Files.Select(f => Difference(f, Absolute(f.Path, folder))).OfType<string>()];
    }

    /// <summary>Opens the take of a recipe.</summary>
    /// <param name="recipe">The recipe.</param>
    /// <param name="folder">The folder that relative paths start from.</param>
    /// <exception cref="RecordingException">A file cannot be read, or its frames are not those of the recipe.</exception>
    public static Take Open(Recipe recipe, string folder)
    {
        ArgumentNullException.ThrowIfNull(recipe);
        var source = recipe.Source;
        if (source.Files.Count == 0)
            throw new RenderException(RenderErrorKind.Recipe, "The recipe names no source file.");
        SampleFormat format;
        using (var first = RecordingFile.Open(Absolute(source.Files[0].Path, folder)))
            format = first.Format;
        return new TakeDescription
        {
            Name = source.Take,
            Parts = [.. source.Files.Select(f => new TakePart(Absolute(f.Path, folder), f.FirstFrame, f.FrameCount, f.FirstChannel - 1, f.ChannelCount))],
            Join = JoinKind.Single,
            Evidence = [],
            Tracks = [],
            ChannelCount = source.Files.Max(f => f.FirstChannel - 1 + f.ChannelCount),
            SampleRateHertz = source.SampleRateHertz,
            Format = format,
            FrameCount = source.Files.Max(f => f.FirstFrame + f.FrameCount),
        }.Open();
    }

    /// <summary>A path of a recipe as the program opens it.</summary>
    public static string Absolute(string path, string folder) => Path.GetFullPath(path.Replace('/', Path.DirectorySeparatorChar), Path.GetFullPath(folder));

    private static string Relative(string path, string folder) => Path.GetRelativePath(Path.GetFullPath(folder), Path.GetFullPath(path)).Replace(Path.DirectorySeparatorChar, '/');

    private static string? Difference(RecipeFile file, string path)
    {
        if (!File.Exists(path))
            return $"{path}: the source file is missing. Put it back, or correct its path in the recipe.";
        var length = new FileInfo(path).Length;
        if (length != file.Bytes)
            return $"{path}: the source file has {length} bytes, the recipe says {file.Bytes}. It was changed or is another file; restore the original.";
        if (file.Sha256.Length > 0 && WholeFile.Sha256(path) is var hash && !string.Equals(hash, file.Sha256, StringComparison.OrdinalIgnoreCase))
            return $"{path}: the source file has SHA-256 {hash}, the recipe says {file.Sha256}. It was changed; restore the original.";
        return null;
    }
}
