using System.Buffers.Binary;
using System.Runtime.CompilerServices;

namespace Athwart.Recordings;

/// <summary>An integer word of a WAVE file.</summary>
internal interface IIntegerWord
{
    static abstract int Size { get; }

    static abstract int Read(ref readonly byte first);

    static abstract void Write(ref byte first, int step);
}

/// <summary>A float word of a WAVE file, seen as double; exact for both sizes.</summary>
internal interface IFloatWord
{
    static abstract int Size { get; }

    static abstract double Read(ref readonly byte first);

    static abstract void Write(ref byte first, double sample);
}

internal readonly struct Unsigned8 : IIntegerWord
{
    public static int Size => 1;

    public static int Read(ref readonly byte first) => first - 128;

    public static void Write(ref byte first, int step) => first = (byte)(step + 128);
}

internal readonly struct Signed16 : IIntegerWord
{
    public static int Size => 2;

    public static int Read(ref readonly byte first) => LittleEndian.Of(Unsafe.ReadUnaligned<short>(in first));

    public static void Write(ref byte first, int step) => Unsafe.WriteUnaligned(ref first, LittleEndian.Of((short)step));
}

internal readonly struct Signed24 : IIntegerWord
{
    public static int Size => 3;

    public static int Read(ref readonly byte first)
    {
        ref var b = ref Unsafe.AsRef(in first);
        return b | (Unsafe.Add(ref b, 1) << 8) | ((sbyte)Unsafe.Add(ref b, 2) << 16);
    }

    public static void Write(ref byte first, int step)
    {
        first = (byte)step;
        Unsafe.Add(ref first, 1) = (byte)(step >> 8);
        Unsafe.Add(ref first, 2) = (byte)(step >> 16);
    }
}

internal readonly struct Signed32 : IIntegerWord
{
    public static int Size => 4;

    public static int Read(ref readonly byte first) => LittleEndian.Of(Unsafe.ReadUnaligned<int>(in first));

    public static void Write(ref byte first, int step) => Unsafe.WriteUnaligned(ref first, LittleEndian.Of(step));
}

internal readonly struct Float32Word : IFloatWord
{
    public static int Size => 4;

    public static double Read(ref readonly byte first) => BitConverter.Int32BitsToSingle(Signed32.Read(in first));

    public static void Write(ref byte first, double sample) => Signed32.Write(ref first, BitConverter.SingleToInt32Bits((float)sample));
}

internal readonly struct Float64Word : IFloatWord
{
    public static int Size => 8;

    public static double Read(ref readonly byte first) => BitConverter.Int64BitsToDouble(LittleEndian.Of(Unsafe.ReadUnaligned<long>(in first)));

    public static void Write(ref byte first, double sample) => Unsafe.WriteUnaligned(ref first, LittleEndian.Of(BitConverter.DoubleToInt64Bits(sample)));
}

/// <summary>Swaps bytes on a big-endian processor and does nothing on the others.</summary>
internal static class LittleEndian
{
    public static short Of(short value) => BitConverter.IsLittleEndian ? value : BinaryPrimitives.ReverseEndianness(value);

    public static int Of(int value) => BitConverter.IsLittleEndian ? value : BinaryPrimitives.ReverseEndianness(value);

    public static long Of(long value) => BitConverter.IsLittleEndian ? value : BinaryPrimitives.ReverseEndianness(value);
}
