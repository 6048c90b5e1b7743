namespace Athwart.Catalogue;

/// <summary>What a kept treatment belongs to.</summary>
public enum TreatmentScope
{
    /// <summary>A name, by which it is applied to any number of takes.</summary>
    Name = 0,

    /// <summary>A take.</summary>
    Take,

    /// <summary>A take, as what puts its recording right; goes before any other treatment of the take and its effects.</summary>
    Correction,

    /// <summary>An effect.</summary>
    Effect,
}

/// <summary>A treatment in the library.</summary>
/// <param name="Scope">What it belongs to.</param>
/// <param name="Key">The name, the case of the letters a to z aside, or the id of the take or the effect.</param>
/// <param name="Json">The treatment; the catalogue does not look into it.</param>
public sealed record KeptTreatment(TreatmentScope Scope, string Key, string Json);

/// <summary>One kept treatment that is set, replaced or taken away.</summary>
/// <param name="Scope">What it belongs to.</param>
/// <param name="Key">The name or the id.</param>
/// <param name="Json">The new treatment; null takes it away.</param>
public sealed record TreatmentChange(TreatmentScope Scope, string Key, string? Json);

/// <summary>What was changed at once, and can be undone at once.</summary>
/// <param name="Number">Counts up.</param>
/// <param name="Date">When.</param>
/// <param name="What">In words.</param>
/// <param name="Undone">Whether it was undone.</param>
/// <param name="Changes">How many treatments it changed.</param>
public sealed record TreatmentHistoryEntry(long Number, DateTimeOffset Date, string What, bool Undone, int Changes);
