using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace Athwart.Recordings;

/// <summary>What the bits of a sample word mean.</summary>
[SuppressMessage("Naming", "CA1720:Identifier contains type name", Justification = "Names of sample words are the field's own.")]
public enum SampleEncoding
{
    /// <summary>Offset binary: silence is half the range. Only 8-bit words are stored so.</summary>
    UnsignedInteger = 0,

    /// <summary>Two's complement, little-endian.</summary>
    SignedInteger,

    /// <summary>IEEE 754, full scale ±1.</summary>
    Float,
}

/// <summary>How one sample is stored.</summary>
/// <param name="Encoding">What the bits mean.</param>
/// <param name="ContainerBits">Bits a sample occupies in the file: 8, 16, 24, 32 or 64.</param>
/// <param name="ValidBits">Bits that carry signal, the uppermost ones of the container; 1 to <paramref name="ContainerBits"/>.</param>
[SuppressMessage("Naming", "CA1720:Identifier contains type name", Justification = "Names of sample words are the field's own.")]
public readonly record struct SampleFormat(SampleEncoding Encoding, int ContainerBits, int ValidBits)
{
    /// <summary>16-bit integer.</summary>
    public static readonly SampleFormat Int16 = new(SampleEncoding.SignedInteger, 16, 16);

    /// <summary>24-bit integer, three bytes a sample.</summary>
    public static readonly SampleFormat Int24 = new(SampleEncoding.SignedInteger, 24, 24);

    /// <summary>32-bit integer.</summary>
    public static readonly SampleFormat Int32 = new(SampleEncoding.SignedInteger, 32, 32);

    /// <summary>8-bit unsigned integer, as WAVE stores 8-bit sound.</summary>
    public static readonly SampleFormat UInt8 = new(SampleEncoding.UnsignedInteger, 8, 8);

    /// <summary>32-bit IEEE float.</summary>
    public static readonly SampleFormat Float32 = new(SampleEncoding.Float, 32, 32);

    /// <summary>64-bit IEEE float.</summary>
    public static readonly SampleFormat Float64 = new(SampleEncoding.Float, 64, 64);

    /// <summary>Bytes a sample occupies in the file.</summary>
    public int BytesPerSample => ContainerBits / 8;

    /// <summary>Whether samples are whole steps.</summary>
    public bool IsInteger => Encoding != SampleEncoding.Float;

    /// <summary>Whether the format is one that this project reads and writes.</summary>
    internal bool IsSupported => ValidBits >= 1 && ValidBits <= ContainerBits && Encoding switch
    {
        SampleEncoding.UnsignedInteger => ContainerBits == 8,
        SampleEncoding.SignedInteger => ContainerBits is 16 or 24 or 32,
        SampleEncoding.Float => ContainerBits is 32 or 64 && ValidBits == ContainerBits,
        _ => false,
    };

    /// <summary>'24-bit integer', '20-bit integer in 24 bits', '32-bit float'; invariant culture.</summary>
    public override string ToString()
    {
        var kind = Encoding == SampleEncoding.Float ? "float" : "integer";
        var container = ValidBits == ContainerBits ? "" : string.Create(CultureInfo.InvariantCulture, $" in {ContainerBits} bits");
        return string.Create(CultureInfo.InvariantCulture, $"{ValidBits}-bit {kind}{container}");
    }
}
