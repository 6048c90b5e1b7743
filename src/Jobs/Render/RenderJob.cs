using Athwart.Recordings;

namespace Athwart.Jobs.Render;

/// <summary>What `render` is asked.</summary>
public sealed record RenderRequest
{
    /// <summary>The recipe file.</summary>
    public required string RecipePath { get; init; }

    /// <summary>Where to write; null for the recipe's own name beside it (with ' MS' added for the raw pair).</summary>
    public string? OutputPath { get; init; }

    /// <summary>Whether to get the raw pair back from the delivered file instead of rendering from the sources.</summary>
    public bool MidSide { get; init; }

    /// <summary>The delivered file for <see cref="MidSide"/>; null for the one the recipe names.</summary>
    public string? DeliveredPath { get; init; }

    /// <summary>How to run.</summary>
    public RenderOptions Options { get; init; } = new();
}

/// <summary>What `render` did.</summary>
/// <param name="Result">The file made.</param>
/// <param name="Expected">The SHA-256 that the recipe expects; empty when it has none, and for the raw pair.</param>
/// <param name="Recovery">How near the raw pair is; null for a rendering.</param>
public sealed record RenderReport(RenderResult Result, string Expected, RawPairRecovery? Recovery)
{
    /// <summary>Whether the file is the expected one to the byte; null when the recipe expects nothing.</summary>
    public bool? IsSame => Expected.Length == 0 ? null : string.Equals(Expected, Result.Sha256, StringComparison.Ordinal);
}

/// <summary>Renders a recipe again, to the same bytes, or gets the raw pair back from what it delivered.</summary>
public static class RenderJob
{
    /// <summary>Runs it.</summary>
    /// <exception cref="RenderException">The recipe cannot be read or done; a source file is missing or not the one of the recipe (all of them are named).</exception>
    /// <exception cref="RecordingException">A file cannot be read.</exception>
    /// <exception cref="JobException">The target is there already.</exception>
    /// <exception cref="IOException">The target cannot be written.</exception>
    public static RenderReport Run(RenderRequest request, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(request);
        var recipe = RecipeFiles.Read(request.RecipePath);
        var folder = Path.GetDirectoryName(Path.GetFullPath(request.RecipePath))!;
        return request.MidSide ? Recover(request, recipe, folder, cancellation) : Render(request, recipe, folder, cancellation);
    }

    private static RenderReport Render(RenderRequest request, Recipe recipe, string folder, CancellationToken cancellation)
    {
        var differences = RecipeSources.Differences(recipe, folder);
        if (differences.Count > 0)
            throw new RenderException(RenderErrorKind.Source, string.Join(Environment.NewLine, differences));
        using var source = RecipeSources.Open(recipe, folder);
        var result = RenderEngine.Render(source, recipe, Free(request, request.OutputPath ?? Delivered(recipe, folder)), request.Options with { Hash = true }, cancellation);
        return new(result, recipe.Output.Sha256, null);
    }

    private static RenderReport Recover(RenderRequest request, Recipe recipe, string folder, CancellationToken cancellation)
    {
        var delivered = request.DeliveredPath ?? Delivered(recipe, folder);
        var target = Free(request, request.OutputPath ?? Path.Combine(Path.GetDirectoryName(delivered)!, Path.GetFileNameWithoutExtension(delivered) + " MS.wav"));
        using var file = RecordingFile.Open(delivered);
        var (result, recovery) = RawPairRecoverer.Write(file, recipe, target, request.Options, cancellation);
        return new(result, "", recovery);
    }

    private static string Free(RenderRequest request, string target) => request.Options.Overwrite || !File.Exists(target)
        ? target
        : throw new JobException(JobErrorKind.Refused, $"'{target}' is there already.", "Name another file with --to, or give --overwrite.");

    private static string Delivered(Recipe recipe, string folder) => recipe.Output.File.Length > 0
        ? RecipeSources.Absolute(recipe.Output.File, folder)
        : throw new RenderException(RenderErrorKind.Recipe, "The recipe does not name its file; say where it is or should go.");
}
