namespace Athwart.Catalogue;

/// <summary>One folder of rendered effects that was handed over.</summary>
public sealed record Delivery
{
    /// <summary>The id; a new one unless it came from the library.</summary>
    public DeliveryId Id { get; init; } = DeliveryId.New();

    /// <summary>The session it came from; null when from several.</summary>
    public SessionId? Session { get; init; }

    /// <summary>The folder, as a full path.</summary>
    public required string Folder { get; init; }

    /// <summary>When it was finished.</summary>
    public required DateTimeOffset Date { get; init; }

    /// <summary>What is in it.</summary>
    public required IReadOnlyList<DeliveredEffect> Effects { get; init; }
}

/// <summary>One effect of a delivery.</summary>
/// <param name="Effect">The effect; null when it was a whole take that was never cut.</param>
/// <param name="Name">The name it was delivered under.</param>
/// <param name="Files">Its files.</param>
/// <param name="SideMadeUp">Whether the side of its stereo was made up from the mid.</param>
public sealed record DeliveredEffect(EffectId? Effect, string Name, IReadOnlyList<DeliveredFile> Files, bool SideMadeUp = false);

/// <summary>One file of a delivered effect.</summary>
/// <param name="Kind">What it is, such as 'stereo', 'mid-side', 'mono', 'recipe'.</param>
/// <param name="Path">Where it lies, relative to the delivery's folder, with '/' between.</param>
/// <param name="Length">Length in bytes.</param>
/// <param name="Sha256">SHA-256 of the content, 64 lower-case hexadecimal digits.</param>
public sealed record DeliveredFile(string Kind, string Path, long Length, string Sha256);
