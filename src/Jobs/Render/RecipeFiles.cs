using System.Text.Json;
using System.Text.Json.Serialization;

namespace Athwart.Jobs.Render;

/// <summary>Reads and writes recipes as JSON.</summary>
public static class RecipeFiles
{
    private const int LargestBytes = 16 * 1024 * 1024;

    /// <summary>The recipe as indented JSON with a line end, the same text on every machine.</summary>
    public static string ToJson(Recipe recipe)
    {
        ArgumentNullException.ThrowIfNull(recipe);
        var versioned = recipe with { Version = NeedsVersion2(recipe) ? 2 : 1 };
        return JsonSerializer.Serialize(versioned, RecipeContext.Default.Recipe).ReplaceLineEndings("\n") + "\n";
    }

    private static bool NeedsVersion2(Recipe recipe) =>
        recipe.Treatment.Steps is { Count: > 0 } || recipe.Source.Loop is not null || recipe.Treatment.FadeInCurve is not null || recipe.Treatment.FadeOutCurve is not null;

    /// <summary>Reads JSON.</summary>
    /// <param name="json">The text.</param>
    /// <param name="name">Its name for messages.</param>
    /// <exception cref="RenderException">It is no recipe, or one of a newer version.</exception>
    public static Recipe FromJson(string json, string name = "the recipe")
    {
        try
        {
            // The version is judged before anything else, for a newer one may have changed everything else.
            var heading = JsonSerializer.Deserialize(json, RecipeContext.Default.RecipeHeading);
            if (heading is null || !string.Equals(heading.Kind, "athwart-recipe", StringComparison.Ordinal))
                throw new RenderException(RenderErrorKind.Recipe, $"{name}: this is no recipe; its 'kind' should be 'athwart-recipe'. Choose the .recipe.json file beside a delivered effect.");
            if (heading.Version is < 1 or > Recipe.CurrentVersion)
                throw new RenderException(RenderErrorKind.Recipe, $"{name}: the recipe has version {heading.Version}, this program reads up to {Recipe.CurrentVersion}. Use the program that wrote it ({heading.Program}), or a newer one.");
            return RecipeChecks.Checked(JsonSerializer.Deserialize(json, RecipeContext.Default.Recipe)!, name);
        }
        catch (JsonException e)
        {
            throw new RenderException(RenderErrorKind.Recipe, $"{name}, line {e.LineNumber + 1}: the recipe cannot be read: {e.Message}", inner: e);
        }
    }

    /// <summary>Reads a recipe file.</summary>
    /// <exception cref="RenderException">It is no recipe, one of a newer version, or too large to be one.</exception>
    public static Recipe Read(string path)
    {
        if (new FileInfo(path) is { Exists: true, Length: > LargestBytes } file)
            throw new RenderException(RenderErrorKind.Recipe, $"{path}: {file.Length} bytes are too many for a recipe.");
        return FromJson(File.ReadAllText(path), path);
    }

    /// <summary>Writes a recipe beside its target and renames it; an existing recipe is replaced.</summary>
    public static void Write(string path, Recipe recipe)
    {
        var temporary = path + ".part";
        File.WriteAllText(temporary, ToJson(recipe));
        File.Move(temporary, path, overwrite: true);
    }
}

/// <summary>The part of a recipe that every version shares.</summary>
internal sealed record RecipeHeading
{
    public string? Kind { get; init; }

    public int Version { get; init; }

    public string? Program { get; init; }
}

[JsonSourceGenerationOptions(
    WriteIndented = true,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    RespectNullableAnnotations = true)]
[JsonSerializable(typeof(Recipe))]
[JsonSerializable(typeof(RecipeHeading))]
internal sealed partial class RecipeContext : JsonSerializerContext;
