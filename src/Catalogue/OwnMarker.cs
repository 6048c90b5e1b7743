using Athwart.Quantities;

namespace Athwart.Catalogue;

/// <summary>Names one marker in one library: 12 hexadecimal digits.</summary>
/// <param name="Value">The digits, lower case.</param>
public readonly record struct MarkerId(string Value)
{
    /// <summary>An id no other marker has.</summary>
    public static MarkerId New() => new(Identity.New());

    /// <summary>The bare digits.</summary>
    public override string ToString() => Value;
}

/// <summary>A place or stretch of a take that the recordist marked later, in the library.</summary>
/// <param name="Id">The id.</param>
/// <param name="Take">The take.</param>
/// <param name="Range">The frames; an empty range is a place.</param>
/// <param name="Label">Its name; empty for none.</param>
public sealed record OwnMarker(MarkerId Id, TakeId Take, FrameRange Range, string Label);
