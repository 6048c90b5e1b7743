using System.Runtime.InteropServices;
using System.Text;

namespace Athwart.Figures;

/// <summary>Draws figures into PNG files by the system's librsvg and cairo, which are loaded only when a PNG is asked for.</summary>
public static partial class FigureRaster
{
    /// <summary>What to install where they are missing.</summary>
    public const string Remedy = "PNG needs the system's librsvg: install the package librsvg2-2 (Debian, Ubuntu), librsvg2 (Fedora) or librsvg (others), or take the SVG.";

    private const int Argb32 = 0;

    /// <summary>Writes a PNG.</summary>
    /// <param name="svg">A file of <see cref="StandaloneFigure"/>.</param>
    /// <param name="path">The file to write; an existing one is replaced.</param>
    /// <param name="scale">Pixels for one unit of the figure, above 0; 2 is sharp on paper half a page wide.</param>
    /// <exception cref="DllNotFoundException">librsvg or cairo is missing; see <see cref="Remedy"/>.</exception>
    /// <exception cref="IOException">The figure cannot be drawn or the file not written.</exception>
    public static void WritePng(string svg, string path, double scale)
    {
        ArgumentNullException.ThrowIfNull(svg);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(scale);
        var (width, height) = StandaloneFigure.SizeOf(svg);
        var bytes = Encoding.UTF8.GetBytes(svg);
        var handle = FromData(bytes, (nuint)bytes.Length, out _);
        if (handle == 0)
            throw new IOException("librsvg cannot read the figure.");
        try
        {
            Paint(handle, path, (int)Math.Ceiling(width * scale), (int)Math.Ceiling(height * scale));
        }
        finally
        {
            Release(handle);
        }
    }

    private static void Paint(nint handle, string path, int width, int height)
    {
        var surface = NewSurface(Argb32, width, height);
        var context = NewContext(surface);
        try
        {
            var whole = new Rectangle(0, 0, width, height);
            if (Render(handle, context, in whole, out _) == 0)
                throw new IOException("librsvg cannot draw the figure.");
            if (WritePng(surface, path) is not 0 and var status)
                throw new IOException(FormattableString.Invariant($"'{path}' cannot be written (cairo status {status})."));
        }
        finally
        {
            FreeContext(context);
            FreeSurface(surface);
        }
    }

    [StructLayout(LayoutKind.Sequential)]
    private readonly record struct Rectangle(double X, double Y, double Width, double Height);

    [LibraryImport("librsvg-2.so.2", EntryPoint = "rsvg_handle_new_from_data")]
    private static partial nint FromData([In] byte[] data, nuint length, out nint error);

    [LibraryImport("librsvg-2.so.2", EntryPoint = "rsvg_handle_render_document")]
    private static partial int Render(nint handle, nint context, in Rectangle viewport, out nint error);

    [LibraryImport("libgobject-2.0.so.0", EntryPoint = "g_object_unref")]
    private static partial void Release(nint handle);

    [LibraryImport("libcairo.so.2", EntryPoint = "cairo_image_surface_create")]
    private static partial nint NewSurface(int format, int width, int height);

    [LibraryImport("libcairo.so.2", EntryPoint = "cairo_create")]
    private static partial nint NewContext(nint surface);

    [LibraryImport("libcairo.so.2", EntryPoint = "cairo_surface_write_to_png", StringMarshalling = StringMarshalling.Utf8)]
    private static partial int WritePng(nint surface, string path);

    [LibraryImport("libcairo.so.2", EntryPoint = "cairo_destroy")]
    private static partial void FreeContext(nint context);

    [LibraryImport("libcairo.so.2", EntryPoint = "cairo_surface_destroy")]
    private static partial void FreeSurface(nint surface);
}
