namespace Athwart.Jobs.Shape;

/// <summary>What a treatment is called where there is little room.</summary>
internal static class TreatmentWords
{
    /// <summary>For the coding history: 'treated: Pass-by (4 steps); ', with 'side made up' where it is; empty without steps.</summary>
    public static string ForHistory(string? name, IReadOnlyList<TreatmentStep>? steps)
    {
        if (steps is not { Count: > 0 })
            return "";
        // The history is ASCII with commas between fields.
        var plain = new string([.. (name ?? "").Where(c => c is >= ' ' and < (char)0x7F and not ',' and not ';')]).Trim();
        var count = FormattableString.Invariant($"{steps.Count} step{(steps.Count == 1 ? "" : "s")}");
        var made = steps.Any(s => s.Kind.MakesSide) ? "; side made up" : "";
        return plain.Length == 0 ? $"treated ({count}){made}; " : $"treated: {plain} ({count}){made}; ";
    }
}
