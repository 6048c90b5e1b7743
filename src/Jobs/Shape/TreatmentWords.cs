using Athwart.Signals.Shaping;

namespace Athwart.Jobs.Shape;

/// <summary>What a treatment is called where there is little room.</summary>
internal static class TreatmentWords
{
    /// <summary>A text about a sound, with the label of a made-up side after it where there is one.</summary>
    public static string Labelled(string text, bool isMadeUp) => !isMadeUp ? text : text.Length == 0 ? MadeUpSide.Label : $"{text} [{MadeUpSide.Label}]";

    /// <summary>For the coding history: 'treated: Pass-by (4 steps); ', with the label of a made-up side where there is one; empty without steps.</summary>
    public static string ForHistory(string? name, IReadOnlyList<TreatmentStep>? steps)
    {
        if (steps is not { Count: > 0 })
            return "";
        // The history is ASCII with commas between fields.
        var plain = new string([.. (name ?? "").Where(c => c is >= ' ' and < (char)0x7F and not ',' and not ';')]).Trim();
        var count = FormattableString.Invariant($"{steps.Count} step{(steps.Count == 1 ? "" : "s")}");
        var made = steps.Any(s => s.Kind.MakesSide) ? "; " + MadeUpSide.Label : "";
        return plain.Length == 0 ? $"treated ({count}){made}; " : $"treated: {plain} ({count}){made}; ";
    }
}
