namespace Athwart.Microphones.Equipment;

/// <summary>What the check of a kit has to say about one value.</summary>
public sealed record KitRemark
{
    /// <summary>Whether the value cannot be and the thing is refused; otherwise it is kept with this remark.</summary>
    public required bool IsRefusal { get; init; }

    /// <summary>The figure, by <see cref="KitFigure.Name"/>, or 'name', 'label', 'pattern', 'price', 'currency', 'notes'.</summary>
    public required string Figure { get; init; }

    /// <summary>The setting of the microphone, from 0; null where the whole thing is meant.</summary>
    public int? Setting { get; init; }

    /// <summary>What is the matter, one sentence with the value and what is plausible.</summary>
    public required string Message { get; init; }

    /// <summary>What to do, one sentence.</summary>
    public required string Remedy { get; init; }

    /// <summary>The message and the remedy.</summary>
    public override string ToString() => $"{Message} {Remedy}";

    internal static KitRemark Impossible(string figure, string message, string remedy) => new() { IsRefusal = true, Figure = figure, Message = message, Remedy = remedy };

    internal static KitRemark Unusual(string figure, string message, string remedy) => new() { IsRefusal = false, Figure = figure, Message = message, Remedy = remedy };
}
