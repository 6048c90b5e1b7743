using Athwart.Signals.Fades;

namespace Athwart.Jobs.Cut;

/// <summary>The words for the shapes of fades, as rules, catalogue and recipe write them.</summary>
public static class FadeWords
{
    /// <summary>The word of the first shape, which an empty one stands for.</summary>
    public const string Default = "sine-squared";

    /// <summary>Every word.</summary>
    public static IReadOnlyList<string> All { get; } = [Default, "linear", "constant-power", "exponential"];

    /// <summary>Whether a word, or none, is a shape.</summary>
    public static bool IsKnown(string? word) => string.IsNullOrEmpty(word) || All.Contains(word, StringComparer.Ordinal);

    /// <summary>The word of a shape.</summary>
    public static string Of(FadeCurve curve) => All[(int)curve];

    /// <summary>A word as the catalogue keeps it: the first shape is empty.</summary>
    public static string Stored(string word) => string.Equals(word, Default, StringComparison.Ordinal) ? "" : word;

    /// <summary>The shape of a word.</summary>
    /// <exception cref="JobException">It is none of <see cref="All"/>.</exception>
    public static FadeCurve Parse(string? word)
    {
        if (string.IsNullOrEmpty(word))
            return FadeCurve.SineSquared;
        var at = All.ToList().IndexOf(word);
        return at >= 0 ? (FadeCurve)at : throw new JobException(JobErrorKind.WrongUse, $"'{word}' is no shape of a fade.", "Write one of: " + string.Join(", ", All) + ".");
    }
}
