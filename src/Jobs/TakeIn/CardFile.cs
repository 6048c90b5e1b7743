namespace Athwart.Jobs.TakeIn;

/// <summary>A regular file found on the card.</summary>
/// <param name="FullPath">Where to open it.</param>
/// <param name="CardPath">Relative to the card, with '/' between.</param>
/// <param name="Length">Length in bytes when the card was listed.</param>
/// <param name="Modified">When it was last changed.</param>
internal sealed record CardFile(string FullPath, string CardPath, long Length, DateTimeOffset Modified)
{
    public string Name => CardPath[(CardPath.LastIndexOf('/') + 1)..];
}
