namespace Athwart.Catalogue;

/// <summary>A thing of the recordist's kit: a microphone, a recorder, a wind protection.</summary>
/// <param name="Kind">What it is, a word of the jobs' choosing.</param>
/// <param name="Name">Its name; unique within the kind, letter case aside.</param>
/// <param name="Version">The version of the JSON's form.</param>
/// <param name="Json">What is known of it; the catalogue does not look into it.</param>
public sealed record KitItem(string Kind, string Name, int Version, string Json);
